"""How warm a conductor gets in a surge, and what comes and goes for ever, by scipy.

    python -m venv venv && venv/bin/pip install numpy scipy
    venv/bin/python surges.py > ../data/surges.csv

Copper by IEC 60228 class 5, with the copper law of IEC 60028 and 3.45e6 J/(m³ K)
(IEC 60853): C dT/dt = I² R(T) - (T - air) / Rth. Rth is what brings the copper
from 30 to 105 °C at the amperes named. Up to 5 s no heat leaves (IEC 60364-4-43).
Then loads that go on and off until the peak no longer moves.
Printed: Ω/km, A for 105 °C, A, seconds, °C at first, °C at the end; then Ω/km, A
for 105 °C, A, seconds on, seconds off, °C of the peak; the same with a current
that stays while it is off; then Ω/km, A for 105 °C, A, °C at first and the seconds
until 105 °C.
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp

SIZES = {1.5: (13.3, 26.0), 4: (4.95, 48.0), 10: (1.91, 88.0), 35: (0.554, 190.0), 95: (0.206, 360.0)}
AIR, HOT = 30.0, 105.0


def warm(ohm, celsius):
    return ohm / 1000 * (1 + 0.00393 * (celsius - 20))


def store(ohm):
    """J/(m K) of the copper that has this resistance at 100 % IACS."""
    return 17.241 / ohm * 1e-6 * 3.45e6


def after(ohm, rated, amps, seconds, first, leaves):
    to_air = (HOT - AIR) / (rated**2 * warm(ohm, HOT))
    flow = lambda t, y: [(amps**2 * warm(ohm, y[0]) - (y[0] - AIR) / to_air * leaves) / store(ohm)]
    return float(solve_ivp(flow, (0, seconds), [first], method="DOP853", rtol=1e-10, atol=1e-9).y[0, -1])


print(f"# scipy {scipy.__version__}, solve_ivp DOP853")
print("ohm_per_km,rated_a,amps,seconds,first_c,last_c")
for ohm, rated in SIZES.values():
    for times, seconds, first in ((1.5, 2, 40), (3, 5, 40), (8, 1, 50), (1.3, 30, 30), (2, 20, 45), (1.1, 120, 60),
                                  (0.8, 600, 90), (3, 10, 30), (0.5, 60, 105)):
        amps = round(times * rated, 1)
        print(f"{ohm},{rated},{amps},{seconds},{first},{after(ohm, rated, amps, seconds, first, seconds > 5):.4f}")
print("ohm_per_km,rated_a,amps,on_s,off_s,peak_c")
for ohm, rated in SIZES.values():
    for times, on, off in ((1.2, 30, 60), (1.5, 20, 120), (1.1, 120, 60)):
        amps, peak = round(times * rated, 1), AIR
        for _ in range(400):
            low = after(ohm, rated, 0.0, off, peak, True)
            peak = after(ohm, rated, amps, on, low, True)
        print(f"{ohm},{rated},{amps},{on},{off},{peak:.4f}")
print("ohm_per_km,rated_a,amps,rest_a,on_s,off_s,peak_c,trough_c")
for ohm, rated in SIZES.values():
    for times, part, on, off in ((1.3, 0.3, 60, 300), (1.1, 0.7, 180, 1800), (1.6, 0.0, 15, 60)):
        amps, rest, peak = round(times * rated, 1), round(part * rated, 1), AIR
        for _ in range(400):
            low = after(ohm, rated, rest, off, peak, True)
            peak = after(ohm, rated, amps, on, low, True)
        print(f"{ohm},{rated},{amps},{rest},{on},{off},{peak:.4f},{after(ohm, rated, rest, off, peak, True):.4f}")
print("ohm_per_km,rated_a,amps,first_c,seconds")
for ohm, rated in SIZES.values():
    for times, first in ((1.05, 30), (1.4, 45), (3, 60)):
        amps = round(times * rated, 1)
        to_air = (HOT - AIR) / (rated**2 * warm(ohm, HOT))
        flow = lambda t, y: [(amps**2 * warm(ohm, y[0]) - (y[0] - AIR) / to_air) / store(ohm)]
        hot = lambda t, y: y[0] - HOT
        hot.terminal = True
        found = solve_ivp(flow, (0, 1e5), [first], method="DOP853", rtol=1e-10, atol=1e-9, events=hot)
        print(f"{ohm},{rated},{amps},{first},{found.t[-1]:.4f}")
