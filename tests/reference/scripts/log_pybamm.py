"""Logs of a battery in a van by the electrochemical models of PyBaMM: nothing of the program's own is in them.

    python -m venv venv && venv/bin/pip install pybamm==26.10.1.1
    venv/bin/python log_pybamm.py ../data/logs

Lithium iron phosphate: Prada2013, model SPMe, four cells in series, current scaled from 2.2846 Ah (what DFN gives at
C/20) to the capacity in the file's first line. Lead-acid: Sulzer2019, model LOQS, six cells, scaled from 21.6 Ah (what
Full gives at C/20 to 10.5 V). V. Sulzer, S. G. Marquis, R. Timms, M. Robinson, S. J. Chapman, 'Python Battery
Mathematical Modelling (PyBaMM)', Journal of Open Research Software 9, 2021. Isothermal at 298.15 K. The logger adds
noise, an offset of its current, and the steps of its digits. Resistance: median over the steps of the current on the
discharging side, without the meter, at once and after one step of the log.
"""
import sys
from pathlib import Path

import numpy as np
import pybamm

INTO = Path(sys.argv[1])
HOUR = 3600.0


def fridge(a, b, on, off, amps, under):
    out, t = [], a
    while t < b:
        out += [(t, under + amps), (t + on / HOUR, under)]
        t += (on + off) / HOUR
    return out


class Bank:
    def __init__(self, model, values, cells, unit, capacity):
        self.model, self.values, self.cells = model, values, cells
        self.scale = capacity / unit

    def run(self, pieces, end, every, soc=1.0):
        """Rows of time, volts, amperes: stretch after stretch, each from the state the last one ended in."""
        rows, solution = [], None
        self.ohms, before = [], None
        solver = pybamm.IDAKLUSolver()
        for (t, what), (u, _) in zip(pieces, pieces[1:] + [(end, 0)]):
            left = round((u - t) * HOUR)
            begin = t * HOUR
            if isinstance(what, tuple):
                charger, most, tail = what
                plan = [
                    lambda s: pybamm.step.current(-charger / self.scale, duration=s, termination=f"{most / self.cells}V", period=20),
                    lambda s: pybamm.step.voltage(most / self.cells, duration=s, termination=f"{tail / self.scale}A", period=20),
                    lambda s: pybamm.step.current(self.rests / self.scale, duration=s, period=20),
                ]
            else:
                plan = [lambda s: pybamm.step.current(what / self.scale, duration=s, period=20)]
            for piece in plan:
                if left < 1:
                    break
                step = piece(left)
                sim = pybamm.Simulation(self.model, parameter_values=self.values, experiment=pybamm.Experiment([step]), solver=solver)
                full = {"initial_soc": soc} if solution is None and soc is not None else {}
                solution = sim.solve(starting_solution=solution, **full)
                last = solution.cycles[-1]
                at = last["Time [s]"].entries
                at = at - at[0]
                volts, amps = last["Voltage [V]"].entries * self.cells, last["Current [A]"].entries * self.scale
                took = at[-1]
                change = amps[0] - before[1] if before else 0.0
                if before and abs(change) > 1.0 and amps[0] > -0.1 and before[1] > -0.1 and took > every:
                    later = np.interp(every, at, volts)
                    self.ohms.append(((before[0] - volts[0]) / change, (before[0] - later) / change))
                before = (volts[-1], amps[-1])
                grid = np.arange(np.ceil(begin / every) * every, begin + took - 1e-6, every)
                rows += list(zip(grid, np.interp(grid - begin, at, volts), np.interp(grid - begin, at, amps)))
                begin += took
                left = round(left - took)
                solution = solution.last_state
        return np.array(rows)


def write(name, rows, truth, offset, digit):
    rng = np.random.default_rng(sum(map(ord, name)))
    volts = rows[:, 1] + rng.normal(0, 0.005, len(rows))
    amps = rows[:, 2] + rng.normal(0, 0.03, len(rows)) + offset
    volts, amps = np.round(volts / 0.01) * 0.01, np.round(amps / digit) * digit
    with open(INTO / f"{name}.csv", "w") as out:
        out.write("# " + ", ".join(f"{k} = {v}" for k, v in truth.items()) + f", PyBaMM {pybamm.__version__}\n")
        out.write("timestamp,voltage,current\n")
        for t, v, a in zip(rows[:, 0], volts, amps):
            out.write(f"{1772409600 + int(t)},{v:.2f},{a:.2f}\n")
    print(name, len(rows), truth, "lowest", rows[:, 1].min(), flush=True)


def by_days(days):
    return [(d * 24 + h, a) for d, pieces in enumerate(days) for h, a in pieces]


def lithium():
    model = pybamm.lithium_ion.SPMe()
    bank = Bank(model, pybamm.ParameterValues("Prada2013"), 4, 2.2846, 96.0)
    s, f, e = 0.2, 3.9, 17.5
    bank.rests = s
    use = [(0.0, s)] + fridge(7.02, 15.9, 640, 1300, f, s) + [(16.02, e + s), (19.0, s)]
    days = [use, [(0.0, s)] + fridge(7.02, 16.0, 640, 1300, f, s), [(0.0, s), (10.03, (30.0, 14.2, 4.0)), (17.0, s)]]
    rows = bank.run(by_days(days), 72.0, 60.0)
    least, most = np.median(bank.ohms, axis=0)
    write("pybamm-lithium", rows, {"capacity_ah": 96.0, "standing_a": s, "step_s": 60, "fridge_a": f, "r_least_mohm": round(float(least) * 1e3, 3), "r_most_mohm": round(float(most) * 1e3, 3)}, -0.05, 0.01)


def lead():
    model = pybamm.lead_acid.LOQS()
    bank = Bank(model, pybamm.ParameterValues("Sulzer2019"), 6, 21.6, 92.0)
    s, f, e = 0.15, 4.3, 8.0
    bank.rests = s
    use = lambda e: [(0.0, s)] + fridge(8.04, 16.9, 760, 1500, f, s) + [(17.02, e + s), (19.5, s)]
    days = [[(0.0, s)], use(e), [(0.0, s)], use(0.75 * e), [(0.0, s)]]
    rows = bank.run(by_days(days), 120.0, 120.0, None)
    least, most = np.median(bank.ohms, axis=0)
    write("pybamm-lead", rows, {"capacity_ah": 92.0, "standing_a": s, "step_s": 120, "fridge_a": f, "r_least_mohm": round(float(least) * 1e3, 3), "r_most_mohm": round(float(most) * 1e3, 3)}, 0.04, 0.01)


for what in sys.argv[2:] or ["lithium", "lead"]:
    {"lithium": lithium, "lead": lead}[what]()
