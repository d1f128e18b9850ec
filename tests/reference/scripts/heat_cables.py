"""Air, natural convection and the warmth of cables, by public libraries.

    python -m venv venv && venv/bin/pip install numpy scipy CoolProp==8.0.0 ht==1.2.0
    venv/bin/python heat_cables.py > ../data/heat_cables.csv

Air by CoolProp. Convection round a horizontal cylinder by ht
(Churchill and Chu) with that air. A cable: copper by IEC 60228 class 5 and the
copper law of IEC 60028, a wall of k W/(m K), radiation; scipy finds the current
that keeps the copper at a temperature, and the temperature that a current
brings.
Printed as tables, each with a line of words above.
"""
import numpy as np
import scipy
from CoolProp.CoolProp import PropsSI
from ht import Nu_horizontal_cylinder
from importlib.metadata import version
from scipy.optimize import brentq

SIGMA = scipy.constants.Stefan_Boltzmann
P = 101325.0
# mm², Ω/km of IEC 60228 class 5, outside diameter in mm (thick wall, as given to the program).
SIZES = [(1, 19.5, 2.7), (1.5, 13.3, 3.0), (2.5, 7.98, 3.6), (4, 4.95, 4.4), (6, 3.30, 5.0), (10, 1.91, 6.5),
         (16, 1.21, 8.3), (25, 0.780, 10.4), (35, 0.554, 11.6), (50, 0.386, 13.5), (70, 0.272, 15.5), (95, 0.206, 18.0)]
WALL_K, EMISSIVITY = 0.17, 0.9


def air(celsius):
    """Conductivity, kinematic viscosity, Prandtl number."""
    of = lambda what: PropsSI(what, "T", celsius + 273.15, "P", P, "Air")
    return of("CONDUCTIVITY"), of("VISCOSITY") / of("DMASS"), of("PRANDTL")


def convection(mm, surface, around):
    """W/(m² K)."""
    film = (surface + around) / 2
    k, nu, pr = air(film)
    d = mm / 1000
    grashof = 9.80665 / (film + 273.15) * (surface - around) * d**3 / nu**2
    return float(Nu_horizontal_cylinder(pr, grashof, Method="Churchill-Chu")) * k / d


def leaves(mm, surface, around):
    """W/m."""
    radiation = EMISSIVITY * SIGMA * ((surface + 273.15)**4 - (around + 273.15)**4)
    return np.pi * mm / 1000 * (convection(mm, surface, around) * (surface - around) + radiation)


def wall(mm2, mm):
    copper = min(4 / np.pi * np.sqrt(mm2), 0.9 * mm)
    return np.log(mm / copper) / (2 * np.pi * WALL_K)


def warm(ohm_per_km, celsius):
    """Ω/m: 0.00393 per kelvin at 20 °C (IEC 60028)."""
    return ohm_per_km / 1000 * (1 + 0.00393 * (celsius - 20))


def ampacity(mm2, ohm, mm, hottest, around):
    surface = brentq(lambda s: s + leaves(mm, s, around) * wall(mm2, mm) - hottest, around + 1e-6, hottest)
    return np.sqrt(leaves(mm, surface, around) / warm(ohm, hottest))


def temperature(mm2, ohm, mm, amps, around):
    def miss(copper):
        heat = amps**2 * warm(ohm, copper)
        surface = copper - heat * wall(mm2, mm)
        return heat - (leaves(mm, surface, around) if surface > around else 0.0)
    return brentq(miss, around + 1e-3, 400.0)


print(f"# CoolProp {version('CoolProp')}, ht {version('ht')}, scipy {scipy.__version__}; wall {WALL_K} W/(m K), emissivity {EMISSIVITY}")
print("celsius,conductivity,viscosity,prandtl")
for t in (-40, -20, 0, 20, 40, 60, 80, 100, 125, 150, 175, 200, 250, 300):
    print(",".join(f"{x:.6g}" for x in (t, *air(t))))
print("diameter_mm,surface_c,air_c,w_per_m2_k")
for mm in (1.5, 2.7, 4.4, 6.5, 10.4, 18.0):
    for surface, around in ((25, 20), (40, 20), (60, 30), (70, 50), (90, 30), (105, 40), (105, 80), (20, -10), (125, 60)):
        print(f"{mm},{surface},{around},{convection(mm, surface, around):.5f}")
print("mm2,ohm_per_km,outside_mm,hottest_c,air_c,amps")
for size in SIZES:
    for hottest, around in ((70, 30), (90, 30), (105, 30), (105, 60), (90, 50)):
        print(f"{size[0]},{size[1]},{size[2]},{hottest},{around},{ampacity(*size, hottest, around):.4f}")
print("mm2,ohm_per_km,outside_mm,amps,air_c,celsius")
for size in SIZES:
    for share, around in ((0.3, 20), (0.5, 20), (0.7, 30), (0.85, 40), (1.0, 30)):
        amps = round(share * ampacity(*size, 105, 30), 1)
        print(f"{size[0]},{size[1]},{size[2]},{amps},{around},{temperature(*size, amps, around):.4f}")
