"""A year of the kinetic battery model, timed: minute steps in numpy, and scipy's solve_ivp.

    LOOMWRIGHT_PYTHON=venv/bin/python cargo bench --bench endurance

runs it beside the program on the same equations (see solve_battery.py), with a
load that a year leaves in balance. Printed: method, seconds, y1, y2 at the end.
"""
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import expm

C, K, WHOLE = 0.61, 0.2305, 110.0
HOURS = 365 * 24


def load(hour):
    amps = 0.8
    if (hour % 1.0) < 1.0 / 3.0:
        amps += 6.0
    if 8.0 <= hour % 24.0 < 12.0:
        amps -= 16.8
    return amps


A = np.array([[-K * (1 - C), K * C], [K * (1 - C), -K * C]])


def say(name, seconds, y):
    print(f"{name};{seconds:.6f};{y[0]:.9f};{y[1]:.9f}")


begin = time.perf_counter()
h = 1.0 / 60.0
grown = expm(A * h)
# The flow of a constant current over one step, by the augmented exponential.
full = expm(np.block([[A, np.array([[-1.0], [0.0]])], [np.zeros((1, 3))]]) * h)
pushed = full[:2, 2]
y = np.array([C * WHOLE, (1 - C) * WHOLE]) * 0.9
for minute in range(HOURS * 60):
    y = grown @ y + pushed * load((minute + 0.5) / 60.0)
say("numpy, a step a minute", time.perf_counter() - begin, y)

begin = time.perf_counter()
y = np.array([C * WHOLE, (1 - C) * WHOLE]) * 0.9
for third in range(HOURS * 3):
    amps = load(third / 3.0 + 1e-6)
    y = solve_ivp(lambda t, y: A @ y - np.array([amps, 0.0]), (0, 1 / 3), y, rtol=1e-8, atol=1e-9).y[:, -1]
say("scipy solve_ivp, from switch to switch", time.perf_counter() - begin, y)
