"""Voltages and currents on trees of cables with loads of every kind, by scipy.

    python -m venv venv && venv/bin/pip install numpy scipy
    venv/bin/python trees_of_loads.py > ../data/trees_of_loads.csv

Kirchhoff's laws written out as one system of equations in the node voltages
(terminals first), solved by scipy's hybrid method from the open voltage. And
the most that all constant powers and currents can be multiplied before there
is no solution: the largest multiple on the curve of solutions, found by
following it with the last node's voltage as the parameter.
Printed: tree,n,source volts,source ohms; a line for each branch: from (-1:
terminals), ohms at 20 °C, copper temperature, watts, amps, load ohms (0:
none); the solution: volts of all points, amps of all branches; the multiple.
"""
import numpy as np
import scipy
from scipy.optimize import brentq, fsolve


def tree(dice):
    n = int(dice.integers(3, 9))
    branches = []
    for index in range(n):
        parent = int(dice.integers(max(0, index - 3), index)) if index and dice.random() < 0.8 else -1
        ohm = dice.uniform(0.002, 0.05)
        celsius = dice.uniform(-10, 80)
        watts = dice.uniform(5, 90) if dice.random() < 0.6 else 0.0
        amps = dice.uniform(0.2, 6) if dice.random() < 0.4 else 0.0
        load = dice.uniform(2, 40) if dice.random() < 0.4 else 0.0
        branches.append([parent, *(round(float(x), 6) for x in (ohm, celsius, watts, amps, load))])
    return round(float(dice.uniform(11.8, 13.6)), 3), round(float(dice.uniform(0.002, 0.02)), 5), branches


def residual(v, source, inside, branches, times=1.0):
    """Current that is missing at each point; v[0] the terminals, v[1 + b] the end of branch b."""
    out = np.zeros(len(v))
    out[0] = (source - v[0]) / inside
    for b, (parent, ohm, celsius, watts, amps, load) in enumerate(branches):
        warm = ohm * (1 + 0.00393 * (celsius - 20))
        current = (v[1 + parent] - v[1 + b]) / warm
        out[1 + parent] -= current
        out[1 + b] += current - times * (watts / v[1 + b] + amps) - (v[1 + b] / load if load else 0.0)
    return out


def solve(source, inside, branches, times=1.0):
    v, info, ok, _ = fsolve(residual, np.full(1 + len(branches), source), args=(source, inside, branches, times),
                            xtol=1e-13, full_output=True)
    return v if ok == 1 or np.max(np.abs(info["fvec"])) < 1e-9 else None


def multiple(source, inside, branches):
    """The largest multiple with a solution, by stepping down one voltage at a time: u is the last point's."""
    ends = [b for b, row in enumerate(branches) if row[3] or row[4]]
    if not ends:
        return 0.0
    last = 1 + ends[-1]
    best, guess = 0.0, np.append(np.full(1 + len(branches), source * 0.999), 0.05)

    def at(u, guess):
        full = lambda x: np.append(residual(x[:-1], source, inside, branches, x[-1]), x[last] - u)
        x, info, ok, _ = fsolve(full, guess, xtol=1e-13, full_output=True)
        return x if np.max(np.abs(info["fvec"])) < 1e-8 else None

    curve = []
    for u in np.linspace(source * 0.995, source * 0.2, 400):
        x = at(u, guess)
        if x is None:
            break
        guess = x
        curve.append((u, x))
    top = max(range(len(curve)), key=lambda i: curve[i][1][-1])
    if top in (0, len(curve) - 1):
        return 0.0
    # A parabola through ever closer points finds the top.
    low, high, middle = curve[top + 1][0], curve[top - 1][0], curve[top][1]
    for _ in range(60):
        a, b = low + (high - low) / 3, high - (high - low) / 3
        xa, xb = at(a, middle), at(b, middle)
        if xa is None or xb is None:
            return 0.0
        if xa[-1] < xb[-1]:
            low, middle = a, xb
        else:
            high, middle = b, xa
    return float(middle[-1])


print(f"# scipy {scipy.__version__}, fsolve; copper law 1 + 0.00393 (T - 20)")
dice = np.random.default_rng(7)
number = 0
while number < 24:
    source, inside, branches = tree(dice)
    v = solve(source, inside, branches)
    if v is None or min(v) < 0.6 * source:
        continue
    times = multiple(source, inside, branches)
    print(f"tree,{number},{source},{inside}")
    for row in branches:
        print("branch," + ",".join(f"{x}" for x in row))
    print("volts," + ",".join(f"{x:.9f}" for x in v))
    currents = [(v[1 + p] - v[1 + b]) / (ohm * (1 + 0.00393 * (c - 20))) for b, (p, ohm, c, *_) in enumerate(branches)]
    print("amps," + ",".join(f"{x:.9f}" for x in currents))
    print(f"multiple,{times:.9f}")
    number += 1
