"""Open-circuit voltage of a measured lithium iron phosphate cell by state of charge.

    python -m venv venv && venv/bin/pip install bpx==1.1.1 numpy
    venv/bin/pip download bpx==1.1.1 --no-binary :all: --no-deps && tar -xzf bpx-1.1.1.tar.gz
    venv/bin/python rest_lithium.py bpx-1.1.1/examples/lfp_18650_cell_BPX.json > ../data/lfp_rest_measured.csv

The parameter set (About:Energy, LFP|graphite 18650 cell of 2 Ah, BPX open
format, December 2022) was fitted to cell cycling and to electrodes after
teardown. Its two electrodes' open-circuit functions, subtracted, are the
cell's. Printed: state of charge in percent, volts of a cell, volts of four.
"""
import json
import sys

import numpy as np

SETS = json.load(open(sys.argv[1]))["Parameterisation"]
NAMES = {"exp": np.exp, "tanh": np.tanh}


def electrode(name, share):
    """Volts against lithium with this share of the electrode's range filled."""
    part = SETS[name]
    low, high = part["Minimum stoichiometry"], part["Maximum stoichiometry"]
    return float(eval(part["OCP [V]"], {"__builtins__": {}}, NAMES | {"x": low + share * (high - low)}))


print("# About:Energy, LFP|graphite 18650 cell, 2 Ah, BPX 0.1 parameter set of December 2022 (bpx 1.1.1, examples)")
print("soc_pct,cell_V,block_V")
for percent in range(0, 101, 2):
    charge = percent / 100
    volts = electrode("Positive electrode", 1 - charge) - electrode("Negative electrode", charge)
    print(f"{percent},{volts:.4f},{4 * volts:.3f}")
