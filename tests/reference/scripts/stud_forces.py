"""How a rigid plate shares a force among its studs, by a public package and by stiffness in numpy.

    python -m venv venv && venv/bin/pip install numpy bolt-pattern-elastic-method==1.0.1
    venv/bin/python stud_forces.py > ../data/stud_forces.csv

Patterns that lie square to the axes go through the package; crooked ones
through the stiffness of a rigid plate on equal springs, which is first held
against the package on the square ones. A force of 1 kN along, across and up in
turn acts at the centre of the mass. Printed: pattern, stud, place along and
across (mm), centre along, across, up (mm); newtons of pull for each of the
three forces; newtons along and across for each of the three.
"""
import numpy as np
from bolt_pattern_elastic_method import AppliedLoad, Bolt, BoltPatternAnalysis
from importlib.metadata import version

PATTERNS = {
    "square": ([(-120, -60), (120, -60), (120, 60), (-120, 60)], (0, 0, 110)),
    "off the middle": ([(-120, -60), (120, -60), (120, 60), (-120, 60)], (25, -10, 130)),
    "six": ([(-150, -70), (0, -70), (150, -70), (-150, 70), (0, 70), (150, 70)], (10, 15, 95)),
    "eight": ([(x, y) for x in (-160, -50, 50, 160) for y in (-75, 75)], (-30, 5, 120)),
    "crooked five": ([(0, 0), (120, 10), (60, 90), (-40, 55), (200, 130)], (70, 40, 100)),
    "triangle": ([(-100, -50), (110, -60), (15, 90)], (0, 5, 140)),
}
FORCES = np.eye(3) * 1000.0


def by_stiffness(studs, centre):
    """Pulls and sideways forces of each stud for each unit force."""
    x, y = np.array(studs, float).T
    answers = []
    for fx, fy, fz in FORCES:
        cx, cy, cz = centre
        # Plate lifts by a + b x + c y; springs of 1. The sideways force at height cz tips it.
        lift = np.array([np.ones_like(x), x, y])
        wanted = np.array([fz, cx * fz - cz * fx, cy * fz - cz * fy])
        pull = lift.T @ np.linalg.solve(lift @ lift.T, wanted)
        # Plate slides by (p, q) and turns by t.
        slide = np.zeros((2 * len(x), 3))
        slide[0::2, 0], slide[0::2, 2] = 1, -y
        slide[1::2, 1], slide[1::2, 2] = 1, x
        side = slide @ np.linalg.solve(slide.T @ slide, np.array([fx, fy, cx * fy - cy * fx]))
        answers.append((pull, side[0::2], side[1::2]))
    return answers


def by_package(studs, centre):
    answers = []
    for fx, fy, fz in FORCES:
        bolts = [Bolt(x=float(x), y=float(y)) for x, y in studs]
        load = AppliedLoad(Fx=fx, Fy=fy, Fz=fz, x=centre[0], y=centre[1], z=centre[2])
        found = BoltPatternAnalysis(bolts, [load]).solve()
        answers.append(tuple(np.array([getattr(r, name) for r in found]) for name in ("Fz_total", "Fx_total", "Fy_total")))
    return answers


print(f"# bolt-pattern-elastic-method {version('bolt-pattern-elastic-method')}, numpy {np.__version__}; N for 1 kN")
print("pattern,along,across,centre_along,centre_across,centre_up,pull_x,pull_y,pull_z,x_x,y_x,x_y,y_y,x_z,y_z")
for name, (studs, centre) in PATTERNS.items():
    answers = by_stiffness(studs, centre)
    if name not in ("crooked five", "triangle"):
        package = by_package(studs, centre)
        for ours, theirs in zip(answers, package):
            for a, b in zip(ours, theirs):
                assert np.allclose(a, b, atol=1e-6), (name, a, b)
        answers = package
    for n, (x, y) in enumerate(studs):
        pulls = [answers[f][0][n] for f in range(3)]
        sides = [answers[f][axis][n] for f in range(3) for axis in (1, 2)]
        print(f"{name},{x},{y},{centre[0]},{centre[1]},{centre[2]}," + ",".join(f"{v:.6f}" for v in pulls + sides))
