"""Write the whole service side of a plan as a netlist for ngspice: plus, minus and body each a conductor of its own.

    loomwright report --json plan.toml > report.json
    python3 whole_circuit.py plan.toml report.json > plan.cir && ngspice -b plan.cir

Where the program counts a loop for each run, out and back together, here every plus
leads to the load and every minus back, joined at the boards' negative bars, or
through the body to the battery. Of the report only what was chosen is read: sizes,
fuses, how warm the copper of each run settles, the voltage at the posts. Copper by
IEC 60228 class 5 and IEC 60028; lugs, contacts and fuse-links as circuit_of_plan.py
has them, and its leads and loads. Printed: d_POINT, the voltage between plus and
minus at each point.
"""
import json
import sys
import tomllib

from circuit_of_plan import ALPHA, CONTACT, LEAST_LUG, LINK, LUG, area_of, loads_at, name, ohm_per_km, reach, with_leads

# Practice, no publication: V lost in a link or breaker and its holder at its rating, beside those of LINK.
MORE = {"cartridge-t": 0.10, "bolt-boat": 0.10, "bolt": 0.10, "limiter": 0.10, "strip-30": 0.10, "strip-51": 0.10}

plan = tomllib.load(open(sys.argv[1], "rb"))
report = json.load(open(sys.argv[2]))
plan["run"] = with_leads(plan)
body = plan.get("vehicle", {}).get("chassis_mohm", 5.0) / 1000
battery = "service battery"
runs = reach(plan, battery)
posts = next(report["runs"][i]["near_v"] for i, r in runs if r["from"] == battery)
plus = lambda point: name("p", point)
minus = lambda point: "0" if point == battery else name("m", point)
lines = [f"* {plan.get('title', '')}", f"vposts {plus(battery)} 0 {posts:.9f}"]
points = []
for i, run in runs:
    chosen = report["runs"][i]
    label, mm2 = chosen["size"]["label"], area_of(chosen["size"]["label"])
    copper = ohm_per_km(label) / 1000 * run["length_m"] * (1 + ALPHA * (chosen["settled_c"] - 20))
    lugs = run.get("joints", 4) * max(LEAST_LUG, LUG * min(1.0, 16 / mm2))
    devices = sum((LINK | MORE)[f["style"]] / f["rating_a"] for f in chosen["fuses"])
    out = copper + devices + (CONTACT if run["to"] == "cut-off" else 0.0)
    back = copper
    if run.get("return") == "chassis":
        # From its earth point straight to the battery's minus: so the plan means what it gives.
        out, back, home = out + lugs, body, "0"
    else:
        out, back, home = out + lugs / 2, copper + lugs / 2, minus(run["from"])
    lines.append(f"rp{i} {plus(run['from'])} {plus(run['to'])} {max(out, 1e-9):.12f}")
    lines.append(f"rm{i} {minus(run['to'])} {home} {max(back, 1e-9):.12f}")
    points.append(run["to"])
for n, (point, power, kind) in enumerate(loads_at(plan)):
    if point not in points or power <= 0:
        continue
    a, b = plus(point), minus(point)
    if kind == "constant-current":
        lines.append(f"il{n} {a} {b} {power / 12:.9f}")
    elif kind == "resistance":
        lines.append(f"rl{n} {a} {b} {144 / power:.9f}")
    else:
        lines.append(f"bl{n} {a} {b} i={power:.9f}/max(v({a},{b}),{posts / 2:.3f})")
for point in points:
    lines.append(f".nodeset v({plus(point)})={posts:.3f}")
lines += [".options reltol=1e-10 abstol=1e-12 vntol=1e-12 itl1=1000", ".control", "op", "set numdgt=9"]
for point in points:
    lines += [f"let {name('d', point)} = v({plus(point)}) - {'0' if minus(point) == '0' else f'v({minus(point)})'}"]
    lines += [f"print {name('d', point)}"]
print("\n".join(lines + [".endc", ".end"]))
