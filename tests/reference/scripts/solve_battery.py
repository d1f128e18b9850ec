"""Integrate the kinetic battery model with scipy and store what it gives.

    python -m venv venv && venv/bin/pip install numpy scipy
    venv/bin/python solve_battery.py > ../data/scipy_battery.csv

The same equations as the program's, by an integrator that knows nothing of it:

    dy1/dt = -I + k c (1 - c) (y2 / (1 - c) - y1 / c)
    dy2/dt =    - k c (1 - c) (y2 / (1 - c) - y1 / c)

A week of 100 Ah of lead-acid: a steady draw, a load on for 20 minutes of every
hour, and a charger for four hours a day, with self-discharge. Also the charge
that constant currents deliver until nothing is at hand, found as an event, for these
constants and three more pairs. Printed: version, then hour, y1, y2; then
current, delivered; then the pair, current, delivered.
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp

C, K, WHOLE = 0.61, 0.2305, 110.0
LEAK = 110.0 * 0.10 / 720.0


def load(hour):
    """Amps out of the battery at an hour of the week; negative is charging."""
    amps = 0.8 + LEAK
    if (hour % 1.0) < 1.0 / 3.0:
        amps += 6.0
    if 8.0 <= hour % 24.0 < 12.0:
        amps -= 15.0
    return amps


def flow(t, y, amps):
    level = K * C * (1 - C) * (y[1] / (1 - C) - y[0] / C)
    return [-amps + level, -level]


def delivered(c, k, amps):
    """Ah that a steady current draws from full until nothing is at hand."""
    def flow(t, y):
        level = k * c * (1 - c) * (y[1] / (1 - c) - y[0] / c)
        return [-amps + level, -level]
    empty = lambda t, y: y[0]
    empty.terminal = True
    s = solve_ivp(flow, (0, 1000), [c * WHOLE, (1 - c) * WHOLE], method="DOP853", rtol=1e-11, atol=1e-12, events=empty)
    return amps * s.t_events[0][0]


print(f"# scipy {scipy.__version__}, numpy {np.__version__}, solve_ivp DOP853, rtol 1e-11")
print("hour,y1,y2")
y = np.array([C * WHOLE, (1 - C) * WHOLE]) * 0.9
print(f"0,{y[0]:.9f},{y[1]:.9f}")
# Each third of an hour the current is constant.
for third in range(7 * 24 * 3):
    begin = third / 3.0
    s = solve_ivp(flow, (0, 1 / 3), y, args=(load(begin + 1e-6),), method="DOP853", rtol=1e-11, atol=1e-12)
    y = s.y[:, -1]
    if (third + 1) % 36 == 0:
        print(f"{(third + 1) / 3:.0f},{y[0]:.9f},{y[1]:.9f}")
print("current,delivered")
for amps in (1.0, 5.0, 11.25, 20.0, 50.0):
    print(f"{amps},{delivered(C, K, amps):.9f}")
print("share_at_hand,rate_per_h,current,delivered")
for c, k in ((0.71, 0.892), (0.58, 4.47), (0.30, 0.05)):
    for amps in (0.5, 2.0, 5.5, 11.0, 22.0, 55.0, 110.0, 220.0):
        print(f"{c},{k},{amps},{delivered(c, k, amps):.9f}")
