"""The least copper that keeps every drop on a tree of cables, by the HiGHS solver of mixed integer programs.

    python -m venv venv && venv/bin/pip install numpy scipy
    venv/bin/python copper_least.py > ../data/copper_least.csv

Random trees of up to 12 branches, each with the sizes of IEC 60228 to choose
from, its drop with a size (V) and that size's copper (kg), and a limit on the
drop from the root to some ends. One binary for each branch and size.
Printed: tree, branch, parent (-1: root), limit (0: none), then drop:mass for
each size; after each tree its least mass, 0 where no choice keeps the limits.
"""
import numpy as np
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp

OHM_PER_KM = {1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21, 25: 0.780, 35: 0.554, 50: 0.386}


def tree(dice):
    branches = []
    for index in range(int(dice.integers(2, 13))):
        parent = int(dice.integers(0, index)) if index and dice.random() < 0.85 else -1
        metres, amps = dice.uniform(0.3, 9.0), dice.uniform(1.0, 60.0)
        first = int(dice.integers(0, 4))
        sizes = list(OHM_PER_KM.items())[first:first + int(dice.integers(2, 6))]
        options = [(amps * (2 * metres * ohm / 1000 + 0.001), 2 * metres * mm2 * 8.89e-3) for mm2, ohm in sizes]
        limit = float(dice.uniform(0.8, 9.0)) if dice.random() < 0.7 else 0.0
        branches.append((parent, round(limit, 6), [(round(v, 6), round(kg, 6)) for v, kg in options]))
    return branches


def least(branches):
    of = [(b, v, kg) for b, (_, _, options) in enumerate(branches) for v, kg in options]
    rows, low, high = [], [], []
    for b in range(len(branches)):
        rows.append([1.0 if o[0] == b else 0.0 for o in of])
        low.append(1.0), high.append(1.0)
    for b, (parent, limit, _) in enumerate(branches):
        if limit:
            way, at = set(), b
            while at >= 0:
                way.add(at)
                at = branches[at][0]
            rows.append([o[1] if o[0] in way else 0.0 for o in of])
            low.append(-np.inf), high.append(limit)
    answer = milp([o[2] for o in of], constraints=LinearConstraint(np.array(rows), low, high),
                  integrality=np.ones(len(of)), bounds=Bounds(0, 1), options={"mip_rel_gap": 0.0})
    return answer.fun if answer.success else 0.0


print(f"# scipy {scipy.__version__}, milp (HiGHS)")
dice = np.random.default_rng(20240229)
number = solved = 0
while solved < 60:
    branches = tree(dice)
    mass = least(branches)
    for b, (parent, limit, options) in enumerate(branches):
        print(f"{number},{b},{parent},{limit}," + ",".join(f"{v}:{kg}" for v, kg in options))
    print(f"{number},least,{mass:.9f}")
    number, solved = number + 1, solved + (mass > 0)
