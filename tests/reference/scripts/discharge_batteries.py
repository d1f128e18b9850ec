"""Discharge three published cells with PyBaMM at currents that no constant here was fitted to.

    python -m venv venv && venv/bin/pip install pybamm==26.10.1.1
    venv/bin/python discharge_batteries.py > ../data/pybamm/unfitted.csv

Lead-acid: Sulzer2019, model Full, six cells, to 1.75 V a cell. Lithium iron
phosphate: Prada2013, model DFN, one cell, to 2.0 V. NMC: Chen2020, model DFN,
one cell, to 2.5 V (its rating is here what 1 A, C/5, gives: 5.1167 Ah).
Isothermal at 298.15 K, from full. Steady currents between and beyond the rates that the catalogue's
constants were fitted to, and loads that go on and off until a pulse can no
longer be carried to its end. Printed: cell, amps, minutes on, minutes off (0
for a steady current), Ah delivered.
"""
import numpy as np
import pybamm

pybamm.set_logging_level("ERROR")
CELLS = {
    "lead-acid": (pybamm.lead_acid.Full, "Sulzer2019", 21.6),
    "lithium": (pybamm.lithium_ion.DFN, "Prada2013", 2.2846),
    "nmc": (pybamm.lithium_ion.DFN, "Chen2020", 5.15),
}
STEADY = {
    "lead-acid": (0.5, 1.2, 2.4, 5.0, 8.0, 12.0, 25.0),
    "lithium": (0.2, 0.3, 0.8, 1.15, 1.6, 3.0),
    "nmc": (0.25, 0.5, 1.6, 2.5, 3.5, 5.0),
}
PULSES = {
    "lead-acid": ((17.0, 6, 18), (17.0, 10, 10), (8.5, 15, 15), (8.5, 30, 60), (25.0, 3, 12), (12.0, 20, 40)),
    "lithium": ((2.3, 5, 5), (2.3, 10, 20), (1.15, 20, 20), (3.0, 5, 10)),
    "nmc": (),
}


def parameters(name):
    p = pybamm.ParameterValues(name)
    p.update({"Ambient temperature [K]": 298.15, "Initial temperature [K]": 298.15})
    return p


def steady(cell, amps):
    model, name, ah = CELLS[cell]
    p = parameters(name)
    p.update({"Current function [A]": amps})
    sim = pybamm.Simulation(model(), parameter_values=p)
    seconds = 3600 * ah / amps * 1.6
    full = {} if cell == "lead-acid" else {"initial_soc": 1.0}
    s = sim.solve(np.linspace(0, seconds, 3201), **full)
    assert "event" in s.termination, s.termination
    return float(s["Discharge capacity [A.h]"].entries[-1])


def pulses(cell, amps, on, off):
    model, name, _ = CELLS[cell]
    p = parameters(name)
    p.update({"Current function [A]": "[input]"})
    if cell == "lithium":
        p.set_initial_state(1.0)
    sim = pybamm.Simulation(model(), parameter_values=p)
    delivered = 0.0
    while True:
        before = sim.solution.t[-1] if sim.solution else 0.0
        s = sim.step(60.0 * on, inputs={"Current function [A]": amps})
        delivered += amps * (s.t[-1] - before) / 3600
        if "event" in s.termination:
            return delivered
        sim.step(60.0 * off, inputs={"Current function [A]": 0.0})


print(f"# PyBaMM {pybamm.__version__}, isothermal at 298.15 K; Sulzer2019 lead-acid Full, Prada2013 lithium DFN, Chen2020 NMC DFN")
print("cell,amps,minutes_on,minutes_off,delivered_Ah")
for cell in CELLS:
    for amps in STEADY[cell]:
        print(f"{cell},{amps},0,0,{steady(cell, amps):.4f}", flush=True)
    for amps, on, off in PULSES[cell]:
        print(f"{cell},{amps},{on},{off},{pulses(cell, amps, on, off):.4f}", flush=True)
