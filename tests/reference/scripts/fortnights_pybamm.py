"""The same fortnights by the electrochemical models of PyBaMM, whose battery has nothing of the program's in it.

    python -m venv venv && venv/bin/pip install pybamm==26.10.1.1
    venv/bin/python fortnights_pybamm.py > ../data/fortnights_pybamm.csv        (Python 3.11 or later, for tomllib)

Lithium iron phosphate: Prada2013, model SPM, four cells in series, 2.2846 Ah a cell (what DFN gives at C/20). Lead-acid:
Sulzer2019, model LOQS, six cells, 21.6 Ah (what Full gives at C/20 to 10.5 V). V. Sulzer, S. G. Marquis, R. Timms,
M. Robinson, S. J. Chapman, 'Python Battery Mathematical Modelling (PyBaMM)', Journal of Open Research Software 9, 2021.
Isothermal at 298.15 K. Loads, sources and the cut-off are those of fortnights.py; the current of each stretch follows
from the voltage at its beginning, and no more goes in than brings the posts to the charge voltage, found by trying.
Nothing is lost in charging, and nothing by itself.
Printed for each plan: lowest charge, hours cut off, Ah used by loads and standing draws, charge at the end.
"""
import math
import tomllib
import warnings

import fortnights as f
import pybamm

warnings.filterwarnings("ignore")
MODELS = {
    "lithium-iron-phosphate": (pybamm.lithium_ion.SPM, "Prada2013", 4, 2.2846),
    "agm": (pybamm.lead_acid.LOQS, "Sulzer2019", 6, 21.6),
    "flooded": (pybamm.lead_acid.LOQS, "Sulzer2019", 6, 21.6),
}


class Bank:
    def __init__(self, chemistry, ah):
        model, values, self.cells, cell_ah = MODELS[chemistry]
        self.scale, self.volts = ah / cell_ah, None
        values = pybamm.ParameterValues(values)
        values["Current function [A]"] = "[input]"
        self.lead = chemistry in ("agm", "flooded")
        self.sim = pybamm.Simulation(model(), parameter_values=values, solver=pybamm.IDAKLUSolver())
        if not self.lead:
            self.sim.build(initial_soc=1.0)
        self.last = None

    def after(self, amps, hours):
        """The state after such a current out of the posts, and the voltage there."""
        first = {} if self.last is None else {"starting_solution": self.last}
        inputs = {"Current function [A]": amps / self.scale}
        got = self.sim.step(hours * 3600, inputs=inputs, save=False, **first)
        name = "Battery voltage [V]" if "Battery voltage [V]" in self.sim.model.variables else "Voltage [V]"
        return got, float(got[name].entries[-1]) * (1 if self.lead else self.cells)


def fortnight(name):
    plan = tomllib.loads((f.ROOT / "plans" / f"{name}.toml").read_text())
    parts = f.PARTS[name]
    chem = tomllib.loads((f.ROOT / "chemistries" / f"{plan['service_battery']['chemistry']}.toml").read_text())
    bank, ah, air_of = Bank(plan["service_battery"]["chemistry"], parts["ah"]), parts["ah"], plan["surroundings"]
    inverter = {"efficiency": 0.88, "rating_w": 0, "idle_w": 8, "hours_a_day": 2} | plan.get("inverter", {})
    loads = [f.Load(l, inverter) for l in plan["load"]]
    idle_hours = max([inverter["hours_a_day"]] + [l["duty"]["hours_a_day"] for l in plan["load"] if l.get("inverter")])
    idle = inverter["idle_w"] * idle_hours / 24 if inverter["rating_w"] else 0.0
    standing = 0.005 + 0.01 + chem["low"].get("own_draw_a", 0.0) * ah / 100
    drives, drive_days = f.spans(plan["vehicle"]["driving"]), plan["vehicle"].get("driving_days", f.NAMES)
    mains = {"windows": [], "days": [], "current_a": 0} | plan.get("mains", {})
    solar = plan.get("solar", {"array_w": 0})
    sun_peak = solar["array_w"] * 0.70 / chem["charge"]["absorption_v"]

    def air_at(t):
        day, hour = f.FIRST + int(t // 24), math.floor(t % 24) + 0.5
        return (air_of["mean_c"] + air_of.get("yearly_swing_k", 18) / 2 * math.cos(2 * math.pi * (day - 200) / 365)
                + air_of.get("daily_swing_k", 10) / 2 * math.cos(2 * math.pi * (hour - 15) / 24))

    def sun_at(t):
        day = f.FIRST + int(t // 24)
        lean = math.radians(23.45 * math.sin(2 * math.pi * (284 + day) / 365))
        half = math.degrees(math.acos(-math.tan(math.radians(air_of["latitude_deg"])) * math.tan(lean))) / 15
        hour = t % 24
        if not sun_peak or abs(hour - 12) >= half:
            return 0.0
        return sun_peak * solar["sun_hours"] * math.pi / (4 * half) * math.cos(math.pi * (hour - 12) / (2 * half))

    for load in loads:
        load.deal(air_at)
    full_v = chem["charge"]["absorption_v"]
    charge, lowest, cut_h, used, volts, closed, low_for = 1.0, 1.0, 0.0, 0.0, 13.0, True, 0.0
    t = 0.0
    while t < 24 * f.DAYS - 1e-9:
        day, hour = int((t + 1e-7) // 24), (t + 1e-7) % 24
        into = (t + 1e-7) % 1.0
        edges = sorted({1.0} | {n / 12 for n in range(1, 12)} | {e for l in loads for e in l.edges(int(t + 1e-7)) if e > 0})
        end = math.floor(t + 1e-7) + next(e for e in edges if e > into + 1e-9)
        offered = parts["charger"] if f.within(drives, drive_days, day, hour) else 0.0
        offered += mains["current_a"] if f.within(f.spans(mains["windows"]), mains["days"], day, hour) else 0.0
        offered += sun_at((t + end) / 2)
        watts = idle + sum(l.watts for l in loads if not l.current and l.on(t + 1e-7)) if closed else 0.0
        amps = standing + (sum(l.watts / 12 for l in loads if l.current and l.on(t + 1e-7)) if closed else 0.0)
        takes = watts / volts + amps
        out, length = takes - offered, end - t
        # No more goes in than the charge voltage drives, nor into a full battery.
        if out < 0 and charge >= 1.0 - 1e-6:
            out = 0.0
        out = max(out, -(1.0 - charge) * ah / length)
        got, volts = bank.after(out, length)
        for _ in range(12):
            if out >= 0 or volts <= full_v + 0.005:
                break
            out *= 0.6
            got, volts = bank.after(out, length)
        bank.last = got
        charge -= out * length / ah
        lowest, used = min(lowest, charge), used + takes * length
        cut_h += 0.0 if closed else length
        sensed = volts - (takes if closed else 0.0) * parts["between"]
        beyond = sensed < parts["cut"] if closed else volts >= parts["reconnect"]
        low_for = low_for + length * 3600 if beyond else 0.0
        if beyond and low_for >= parts["delay"]:
            closed, low_for = not closed, 0.0
        t = end
    return lowest, cut_h, used, charge


if __name__ == "__main__":
    print(f"# PyBaMM {pybamm.__version__}; fortnights_pybamm.py")
    for name, parts in f.PARTS.items():
        given = ";".join(f"{parts[p]:g}" for p in ["ah", "charger", "cut", "reconnect", "delay", "between"])
        print(f"{name};{given};" + ";".join(f"{x:.5f}" for x in fortnight(name)), flush=True)
