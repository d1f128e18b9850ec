"""Logs of a battery in a van, as a shunt's logger would write them: the truth is known.

    python -m venv venv && venv/bin/pip install scipy==1.17.1 numpy
    venv/bin/python log_cell.py ../data/logs

A cell of two RC members behind a series resistance is integrated by scipy (solve_ivp, RK45)
through a week: a fridge that cycles, lamps in the evening, a standing draw, an evening's heavy use,
drives that charge at constant current, then constant voltage, and days parked with everything off.
Open-circuit voltage: the curves that PyBaMM gave (../data/pybamm), which are not the program's own.
The logger adds noise, an offset of its current, and the steps of its digits. Each file begins with
a remark that has the truth; the rows are kept every so many seconds as the remark says.
"""
import csv
import sys
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

HERE = Path(__file__).parent
INTO = Path(sys.argv[1])


def curve(name):
    rows = [r for r in csv.reader(open(HERE / "../data/pybamm" / name)) if not r[0].startswith("#")]
    data = np.array([[float(x) for x in r] for r in rows[1:]])
    order = np.argsort(data[:, 0])
    return data[order, 0] / (100.0 if data[:, 0].max() > 2 else 1.0), data[order, -1]


class Cell:
    """Charge 0 to 1 and the voltages of both members; current out is positive."""

    def __init__(self, ocv, capacity, r0, members, absorption, takes, stored):
        self.x, self.y = ocv
        self.capacity, self.r0, self.members = capacity, r0, members
        self.absorption, self.takes, self.stored = absorption, takes, stored

    def open(self, z):
        return np.interp(z, self.x, self.y)

    def current(self, state, load, charger):
        if charger <= 0:
            return load
        # What it takes near full falls with what is missing; the last of it makes gas or balances.
        takes = self.capacity * (self.takes[0] + self.takes[1] * max(1.0 - state[0], 0.0))
        return -min(charger, takes)

    def volts(self, state, i):
        free = self.open(state[0]) - i * self.r0 - state[1] - state[2]
        full = i < 0 and -i < 0.99 * self.most
        return self.absorption if full else min(free, self.absorption)

    def rate(self, load, charger):
        def f(_, s):
            i = self.current(s, load, charger)
            z = -i / (self.capacity * 3600) * (self.stored if i < 0 else 1.0)
            z = 0.0 if i < 0 and s[0] >= 1.0 else z
            return [z] + [(i - s[k + 1] / r) / c for k, (r, c) in enumerate(self.members)]
        return f


def week(cell, rng, use, days, every):
    """Rows of time, volts, amperes, true charge."""
    loads, drives = use
    edges = sorted({0.0, days * 86400.0} | {t for spans in loads.values() for _, s in [spans] for w in s for t in w} | {t for d in drives for t in d[:2]})
    edges = [t for t in edges if 0 <= t <= days * 86400]
    state, rows = np.array([1.0, 0.0, 0.0]), []
    for a, b in zip(edges, edges[1:]):
        mid = (a + b) / 2
        load = sum(amps for amps, spans in loads.values() if any(s <= mid < e for s, e in spans))
        charger = sum(d[2] for d in drives if d[0] <= mid < d[1])
        cell.most = charger
        at = np.arange(np.ceil(a / every) * every, b, every)
        done = solve_ivp(cell.rate(load, charger), (a, b), state, t_eval=np.append(at, b), max_step=600, rtol=1e-6)
        for t, s in zip(done.t[:-1], done.y.T):
            i = cell.current(s, load, charger)
            rows.append((t, cell.volts(s, i), i, s[0]))
        state = done.y[:, -1].copy()
        state[0] = min(state[0], 1.0)
    return np.array(rows)


def cycling(start, end, on, off):
    spans, t = [], start
    while t < end:
        spans.append((t, min(t + on, end)))
        t += on + off
    return spans


def hours(days, a, b):
    return [(d * 86400 + a * 3600, d * 86400 + b * 3600) for d in days]


def write(name, rows, truth, noise, offset, digit, writer):
    rng = np.random.default_rng(sum(map(ord, name)))
    volts = rows[:, 1] + rng.normal(0, noise[0], len(rows))
    amps = rows[:, 2] + rng.normal(0, noise[1], len(rows)) + offset
    volts, amps = np.round(volts / digit[0]) * digit[0], np.round(amps / digit[1]) * digit[1]
    with open(INTO / f"{name}.csv", "w") as out:
        out.write("# " + ", ".join(f"{k} = {v}" for k, v in truth.items()) + "\n")
        writer(out, rows[:, 0], volts, amps)
    print(name, len(rows), truth)


def lead():
    members = [(0.0030, 40 / 0.0030), (0.0060, 1800 / 0.0060)]
    cell = Cell(curve("leadacid_ocv_25C.csv"), 92.0, 0.0055, members, 14.4, (0.008, 1.2), 0.93)
    loads = {
        "standing": (0.15, [(0.0, 7 * 86400.0)]),
        "fridge": (4.3, sum((cycling(d * 86400 + 8 * 3600 + 137, d * 86400 + 22 * 3600, 760, 1500) for d in (0, 1, 2, 5)), [])),
        "lamps": (1.9, hours((0, 1, 2, 5), 18.51, 21.73)),
        "evening": (9.0, hours((1, 2), 17.02, 20.01)),
    }
    drives = [(d * 86400 + 9.03 * 3600, d * 86400 + 15 * 3600, 25.0) for d in (2, 3, 6)]
    rows = week(cell, None, (loads, drives), 7, 120.0)
    step = 0.0055 + sum(r * (1 - np.exp(-120 / (r * c))) for r, c in members)
    def comma(out, t, v, a):
        out.write("Datum;Uhrzeit;Spannung (V);Strom (A)\n")
        for t, v, a in zip(t, v, a):
            d, s = divmod(int(t), 86400)
            out.write(f"{2 + d:02d}.03.2026;{s // 3600:02d}:{s // 60 % 60:02d}:{s % 60:02d};{v:.2f};{-a:.2f}\n".replace(".03.2026", "/03/2026").replace(".", ",").replace("/03/2026", ".03.2026"))
    write("lead", rows, {"capacity_ah": 92.0, "standing_a": 0.15, "step_s": 120, "fridge_a": 4.3, "r_most_mohm": round(float(step) * 1000, 3), "r_least_mohm": 5.5}, (0.005, 0.03), 0.04, (0.01, 0.01), comma)


def lithium():
    members = [(0.0015, 30 / 0.0015), (0.0025, 900 / 0.0025)]
    x, y = curve("lfp_ocv_25C.csv")
    y[-1] = 13.6  # 3.6 V a cell is what it is charged to; full it rests at 3.4 V (usual, from memory)
    cell = Cell((x, y), 96.0, 0.0042, members, 14.2, (0.002, 6.0), 0.995)
    loads = {
        "standing": (0.20, [(0.0, 4 * 86400.0)]),
        "fridge": (3.9, sum((cycling(d * 86400 + 7 * 3600 + 77, d * 86400 + 23 * 3600, 640, 1300) for d in (0, 1)), [])),
        "evening": (14.0, hours((1,), 16.02, 19.0)),
    }
    drives = [(2 * 86400 + 10.03 * 3600, 2 * 86400 + 15 * 3600, 30.0), (3 * 86400 + 20.0 * 3600, 4 * 86400.0, 30.0)]
    rows = week(cell, None, (loads, drives), 4, 60.0)
    step = 0.0042 + sum(r * (1 - np.exp(-60 / (r * c))) for r, c in members)
    def plain(out, t, v, a):
        out.write("timestamp,voltage,current\n")
        for t, v, a in zip(t, v, a):
            out.write(f"{1772409600 + int(t)},{v:.2f},{a:.2f}\n")
    write("lithium", rows, {"capacity_ah": 96.0, "standing_a": 0.20, "step_s": 60, "fridge_a": 3.9, "r_most_mohm": round(float(step) * 1000, 3), "r_least_mohm": 4.2}, (0.005, 0.03), -0.05, (0.01, 0.01), plain)
    print("lowest charge", rows[:, 3].min())


lead()
lithium()
