"""Two days and a half of a battery under loads of every kind, integrated by scipy.

    python -m venv venv && venv/bin/pip install numpy scipy
    venv/bin/python days_of_use.py > ../data/days_of_use.csv

A battery of 100 Ah at 20 h and 25 °C, from 95 %: two wells, C of the charge at
hand, levelled at K per hour; resting voltage a straight line over the head of
the well at hand; 6 mΩ inside. At the posts hang 6 W of constant power always,
0.8 A of constant current from 8 to 20 h, and a heater of 12 W at 12 V from 6 to 8
and from 18 to 22 h. The posts settle at V = E - R (P / V + I + G V). Printed two minutes before each hour is full: hour it began, share of charge, volts.
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

C, K, RATED, HOURS = 0.62, 0.35, 100.0, 20.0
EMPTY, FULL, INSIDE = 11.6, 12.8, 0.006
# All of the charge, when RATED is what a current over HOURS delivers until nothing is at hand.
decay = np.exp(-K * HOURS)
WHOLE = RATED / (K * C * HOURS / (1 - decay + C * (K * HOURS - 1 + decay)))


def posts(at_hand, hour):
    head = 1 - (WHOLE - at_hand / C) / RATED
    open_volts = EMPTY + (FULL - EMPTY) * head
    watts = 6.0
    amps = 0.8 if 8 <= hour % 24 < 20 else 0.0
    siemens = 12 / 144 if 6 <= hour % 24 < 8 or 18 <= hour % 24 < 22 else 0.0
    volts = brentq(lambda v: open_volts - INSIDE * (watts / v + amps + siemens * v) - v, 6, 14)
    return volts, watts / volts + amps + siemens * volts


def flow(t, y, hour):
    level = K * C * (1 - C) * (y[1] / (1 - C) - y[0] / C)
    return [-posts(y[0], hour)[1] + level, -level]


print(f"# scipy {scipy.__version__}, solve_ivp DOP853, rtol 1e-10")
print("hour,charge,volts")
y = np.array([C, 1 - C]) * (WHOLE - 0.05 * RATED)
for hour in range(60):
    s = solve_ivp(flow, (0, 1), y, args=(hour + 0.5,), method="DOP853", rtol=1e-10, atol=1e-12, dense_output=True)
    then = s.sol(58 / 60)
    print(f"{hour},{1 - (WHOLE - then.sum()) / RATED:.8f},{posts(then[0], hour + 0.5)[0]:.6f}")
    y = s.y[:, -1]
