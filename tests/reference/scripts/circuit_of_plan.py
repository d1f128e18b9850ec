"""Write a plan as a netlist for ngspice, by a way of its own.

    loomwright report --json plan.toml > report.json
    python3 circuit_of_plan.py plan.toml report.json > plan.cir && ngspice -b plan.cir

Reads the plan as a person would, and of the program's report only what was
chosen: sizes, fuses, the air along each run, the lowest voltages at the two
batteries and what the charger asks for. All else is its own: topology, loads, and
resistances from the publications named here. Two circuits: what hangs on
the service battery with all on that may be on together, and the charger's
feed from the starter battery. Printed by ngspice: v(s_POINT) and v(f_POINT),
POINT as in the plan with _ for what is not a letter or digit.
"""
import json
import re
import sys
import tomllib

# IEC 60228:2004 table 3, class 5: Ω/km at 20 °C, plain and metal-coated.
PLAIN = {0.5: 39.0, 0.75: 26.0, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21, 25: 0.780,
         35: 0.554, 50: 0.386, 70: 0.272, 95: 0.206, 120: 0.161, 150: 0.129}
COATED = {0.5: 40.1, 0.75: 26.7, 1: 20.0, 1.5: 13.7, 2.5: 8.21, 4: 5.09, 6: 3.39, 10: 1.95, 16: 1.24, 25: 0.795,
          35: 0.565, 50: 0.393, 70: 0.277, 95: 0.210, 120: 0.164, 150: 0.132}
# DIN VDE 0298-4:2023-06 table 11 column 2: A that warm a single core by 40 K.
BY_40_K = {0.75: 15, 1: 19, 1.5: 24, 2.5: 32, 4: 42, 6: 54, 10: 73, 16: 98, 25: 129, 35: 158, 50: 198, 70: 245,
           95: 292, 120: 344}
# IEC 60028: change of copper's resistance for a kelvin, at 20 °C.
ALPHA = 0.00393
# Practice, no publication: a crimped lug up to 16 mm², a switch contact; V lost in a fuse-link at its rating.
LUG, CONTACT, LEAST_LUG = 0.0002, 0.0005, 0.00003
PLUG = {"heavy": 0.0005}
LINK = {"blade-c": 0.15, "blade-f": 0.15, "blade-e": 0.12, "cartridge-dc": 0.20}


def area_of(label):
    """mm² of copper, nominal; AWG by ASTM B258."""
    if "AWG" in label:
        gauge = label.replace("AWG", "").strip()
        number = 1 - int(gauge.split("/")[0]) if "/" in gauge else int(gauge)
        return 3.141592653589793 / 4 * (0.127 * 92 ** ((36 - number) / 39)) ** 2
    return float(label.split()[0])


def ohm_per_km(label):
    if "AWG" in label:
        return 17.241 / area_of(label) * 1.02
    return (COATED if "tinned" in label else PLAIN)[area_of(label)]


def amps_by_40_k(mm2):
    sizes = sorted(BY_40_K)
    if mm2 in BY_40_K:
        return BY_40_K[mm2]
    # Between two sizes, and beyond the ends, with the power 0.65 of the copper (the table's own slope).
    near = min(sizes, key=lambda s: abs(s - mm2))
    return BY_40_K[near] * (mm2 / near) ** 0.65


def name(side, point):
    return side + "_" + re.sub(r"[^a-z0-9]", "_", point.lower())


def watts(load):
    return load.get("count", 1) * max(load.get("power_w", 0.0), 12.0 * load.get("current_a", 0.0))


def with_leads(plan):
    """The runs with each load's own cable, and where its load hangs then; loads of a way share its fuse."""
    runs = [dict(run, report=n) for n, run in enumerate(plan["run"])]
    ends = {end for run in runs for end in (run["from"], run["to"])} | {b["name"] for b in plan.get("board", [])}
    led = [l for l in plan.get("load", []) if "lead_m" in l and not l.get("inverter") and l.get("count", 1)]
    key = lambda l: (l["at"], l["way"]) if l.get("way") else None
    sharing = [key(l) for l in led if key(l)]
    shared = {k for k in sharing if sharing.count(k) > 1}
    for load in led:
        way, board = key(load), load["at"]
        if way in shared:
            begin = f"{board}: {way[1]}"
            if not any(run["to"] == begin for run in runs):
                runs.append({"from": board, "to": begin, "length_m": 0.0, "joints": 0, "report": len(runs)})
            board = begin
        end = load["name"] if load["name"] not in ends else load["name"] + " (its terminals)"
        runs.append({"from": board, "to": end, "length_m": load["lead_m"], "report": len(runs),
                     "return": load.get("lead_return", "cable")})
        load["at"] = end
    return runs


def loads_at(plan):
    """Point, watts at 12 V, kind; of loads that never run together the largest."""
    found, groups = [], {}
    for load in plan.get("load", []):
        if load.get("inverter"):
            continue
        entry = (load["at"], watts(load), load.get("kind", "constant-power"))
        if load.get("not_with"):
            largest = groups.get(load["not_with"])
            groups[load["not_with"]] = entry if not largest or entry[1] > largest[1] else largest
        else:
            found.append(entry)
    inverter = plan.get("inverter", {})
    if inverter.get("rating_w"):
        plugged = sum(watts(l) for l in plan.get("load", []) if l.get("inverter"))
        power = max(inverter["rating_w"], plugged) / inverter.get("efficiency", 0.88)
        found.append((inverter["at"], power, "constant-power"))
    return found + list(groups.values())


def run_lines(plan, side, number, run, report, body):
    """A run out and back: a source of volts that follows its own current, and its warming."""
    label, mm2 = report["size"]["label"], area_of(report["size"]["label"])
    ways = 1 if run.get("return") == "chassis" else 2
    cold = ohm_per_km(label) / 1000 * run["length_m"] * ways
    lug = max(LEAST_LUG, LUG * min(1.0, 16 / mm2))
    fixed = run.get("joints", 4) * lug + run.get("switch_mohm", 0.0) / 1000
    fixed += body if ways == 1 else 0.0
    fixed += CONTACT if run["to"] == "cut-off" else 0.0
    # A contact each way; of a trailer's usual plug 5 mΩ.
    fixed += sum(2 * PLUG.get(p.get("kind"), 0.005) for p in plan.get("plug", []) if p["name"] == run["to"])
    for fuse in report["fuses"]:
        fixed += LINK.get(fuse["style"], 0.10) / fuse["rating_a"]
    a, b, m = name(side, run["from"]), name(side, run["to"]), f"{side}m{number}"
    iz = amps_by_40_k(mm2)
    warm = f"{cold:.9f}*(1+{ALPHA}*({report['air_c']:.6f}-20+40*(i(v{m})/{iz:.6f})^2))"
    return [f"v{m} {a} {m} 0", f"b{m} {m} {b} v=i(v{m})*({warm}+{fixed:.9f})"]


def load_line(n, node, power, kind, posts):
    if kind == "constant-current":
        return f"i{n} {node} 0 {power / 12:.9f}"
    if kind == "resistance":
        return f"r{n} {node} 0 {144 / power:.9f}"
    # Of the two voltages that a constant power allows the upper one: below half of the battery's it draws no more.
    return f"b{n} {node} 0 i={power:.9f}/max(v({node}),{posts / 2:.3f})"


def reach(plan, start):
    """Runs that hang on a battery, nearest first; whichever way each was written."""
    left, at, found = [(run["report"], run) for run in plan["run"]], {start}, []
    stop = {"service battery", "starter battery"} - {start}
    while True:
        ready = [(i, r) for i, r in left if r["from"] in at and r["to"] not in stop]
        if not ready:
            return found
        for i, run in ready:
            found.append((i, run))
            left.remove((i, run))
            # What the charger feeds is not what feeds the charger.
            if run["to"] != "charger":
                at.add(run["to"])


if __name__ == "__main__":
    plan = tomllib.load(open(sys.argv[1], "rb"))
    report = json.load(open(sys.argv[2]))
    plan["run"] = with_leads(plan)
    body = plan.get("vehicle", {}).get("chassis_mohm", 5.0) / 1000
    lines, nodes = [f"* {plan.get('title', '')}"], []
    for side, battery in (("s", "service battery"), ("f", "starter battery")):
        runs = reach(plan, battery)
        if not runs:
            continue
        posts = next(report["runs"][i]["near_v"] for i, r in runs if r["from"] == battery)
        lines.append(f"v{side} {name(side, battery)} 0 {posts:.9f}")
        points = {battery}
        for i, run in runs:
            lines += run_lines(plan, side, i, run, report["runs"][i], body)
            points.add(run["to"])
        asks = loads_at(plan) if side == "s" else []
        charger = report["charger"]
        if side == "f" and "charger" in points:
            asks.append(("charger", charger["input_a"] * charger["input_v"], "constant-power"))
        for n, (point, power, kind) in enumerate(asks):
            if point in points and power > 0:
                lines.append(load_line(f"{side}l{n}", name(side, point), power, kind, posts))
        for point in points:
            nodes.append(name(side, point))
        middles = [f"{side}m{i}" for i, _ in runs]
        lines += [f".nodeset v({node})={posts:.3f}" for node in middles + [name(side, p) for p in points]]
    lines += [".options reltol=1e-9 abstol=1e-12 vntol=1e-12 itl1=1000", ".control", "op", "set numdgt=9"]
    lines += [f"print v({node})" for node in sorted(nodes)] + [".endc", ".end"]
    print("\n".join(lines))
