"""A fortnight of each example plan, integrated by scipy from one switching to the next.

    python -m venv venv && venv/bin/pip install numpy scipy
    venv/bin/python fortnights.py > ../data/fortnights.csv        (Python 3.11 or later, for tomllib)

Read from the project are the plans and the battery profiles, no code. The parts that a design chooses stand in PARTS.
From 15 April, a Monday, new and full. Two wells, levelled at k'; resting voltage and resistance by the head of the well
at hand; charging by what is offered, what the battery takes and what its voltage allows; the charge stored is what goes
in less the loss of its stretch. A load that is not on all through its times runs in turns of a few minutes, dealt out by
the rule that the program tells: which loads coincide decides when a cut-off without much delay opens. The sun is a half sine between sunrise and
sunset. The cut-off opens when the voltage it senses has been low for its delay, as an event of the integration, and
closes when it has been high.
Printed for each plan: lowest charge, hours cut off, Ah used by loads and standing draws, Ah charged, charge at the end.
"""
import math
import pathlib
import tomllib

import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

ROOT = pathlib.Path(__file__).resolve().parents[3] / "profiles"
# Capacity of the bank, what the charger gives, the cut-off's settings, resistance from the posts to where it senses.
PARTS = {
    "bird-ringing-van": dict(ah=280, charger=40, cut=12.9, reconnect=13.2, delay=90, between=0.00145),
    "beekeeper-truck": dict(ah=260, charger=15, cut=12.2, reconnect=12.6, delay=5, between=0.00168),
    "market-trailer": dict(ah=180, charger=15, cut=12.1, reconnect=12.4, delay=5, between=0.00506),
}
DAYS, FIRST = 14, 105
NAMES = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def curve(points, x):
    if x <= points[0][0]:
        return points[0][1]
    for (a, fa), (b, fb) in zip(points, points[1:]):
        if x <= b:
            return fa + (fb - fa) * (x - a) / (b - a)
    return points[-1][1]


def spans(words):
    """Spans in hours; one over midnight ends beyond 24."""
    out = []
    for word in words:
        begin, end = [int(t[:2]) + int(t[3:]) / 60 for t in word.split("-")]
        out.append((begin, end if end > begin else end + 24))
    return out


def within(all_spans, days, day, hour):
    """Whether a span that began on this day or the one before reaches this hour."""
    for begin, end in all_spans:
        if NAMES[day % 7] in days and begin <= hour < end:
            return True
        if NAMES[(day - 1) % 7] in days and begin <= hour + 24 < end:
            return True
    return False


class Load:
    def __init__(self, told, inverter):
        duty = told.get("duty", {})
        self.all = spans(duty["windows"]) if "windows" in duty else [(0, 24)]
        if duty.get("when") == "night":
            self.all = [(18, 30)]
        elif duty.get("when") == "day":
            self.all = [(6, 18)]
        allowed = sum(end - begin for begin, end in self.all)
        self.switched = min(duty.get("hours_a_day", allowed) / allowed, 1.0)
        self.at_25, self.per_k = duty.get("share_on", 1.0), duty.get("share_per_k", 0.0)
        watts = told["power_w"] * told.get("count", 1)
        self.watts = watts / inverter["efficiency"] if told.get("inverter") else watts
        self.current = told.get("kind") == "constant-current"
        on_25 = allowed * 60 * self.switched * min(max(self.at_25, 0.0), 1.0)
        self.turn = min(max(on_25 / 4, 1.0), 8.0)
        self.deals = self.switched * self.at_25 < 0.999 or self.per_k != 0.0
        self.minutes = []

    def deal(self, air_at):
        """Its minutes: each adds its share to what is owed; a turn of minutes is taken when that much is owed."""
        owed, on = self.turn, False
        for minute in range(DAYS * 1440):
            t = minute / 60 + 1e-6
            if not within(self.all, NAMES, int(t // 24), t % 24):
                self.minutes.append(False)
                continue
            share = min(max(self.at_25 + self.per_k * (air_at(t) - 25.0), 0.0), 1.0) * self.switched
            on = not self.deals or on or owed + share >= self.turn - 1e-9
            self.minutes.append(on)
            if self.deals:
                owed += share - 1.0 if on else share
                on = on and owed > 1e-9

    def on(self, t):
        return self.minutes[min(int(t * 60 + 1e-4), len(self.minutes) - 1)]

    def edges(self, hour):
        """Minutes of this hour at which it switches."""
        of = self.minutes[hour * 60 - 1 if hour else 0:hour * 60 + 60]
        first = 0 if hour else 1
        for n in range(1, len(of)):
            if of[n] != of[n - 1]:
                yield (n - 1 + first) / 60


def fortnight(name):
    plan = tomllib.loads((ROOT / "plans" / f"{name}.toml").read_text())
    parts = PARTS[name]
    chem = tomllib.loads((ROOT / "chemistries" / f"{plan['service_battery']['chemistry']}.toml").read_text())
    ah, air_of = parts["ah"], plan["surroundings"]
    c, k, rated_h = chem["rate"]["kinetic_c"], chem["rate"]["kinetic_k_per_h"], chem["rate"]["rated_h"]
    decay = math.exp(-k * rated_h)
    whole = ah * (1 - decay + c * (k * rated_h - 1 + decay)) / (k * c * rated_h)
    resting = [chem["resting"]["soc_v"]] + [chem["resting"][o] for o in ["other_soc_v"] if o in chem["resting"]]
    base = chem["resistance"]["working_mohm"] / 1000 * 100 / ah
    charge = chem["charge"]
    tail = max(charge["tail_c"], 0.001)
    slope = max(0.2 - tail, 0.01) / (1 - charge["bulk_to"])
    below = 1 - (1 - charge["coulombic"]) / 3
    above = min(max((charge["coulombic"] - charge["bulk_to"] * below) / (1 - charge["bulk_to"]), 0.2), 1.0)
    protection = chem["low"].get("own_protection_v", 1.0)
    inverter = {"efficiency": 0.88, "rating_w": 0, "idle_w": 8, "hours_a_day": 2} | plan.get("inverter", {})
    told = plan["load"]
    loads = [Load(l, inverter) for l in told]
    idle_hours = max([inverter["hours_a_day"]] + [l["duty"]["hours_a_day"] for l in told if l.get("inverter")])
    idle = inverter["idle_w"] * idle_hours / 24 if inverter["rating_w"] else 0.0
    standing = 0.005 + 0.01 + chem["low"].get("own_draw_a", 0.0) * ah / 100
    drives, drive_days = spans(plan["vehicle"]["driving"]), plan["vehicle"].get("driving_days", NAMES)
    mains = {"windows": [], "days": [], "current_a": 0} | plan.get("mains", {})
    plugged, mains_days = spans(mains["windows"]), mains["days"]
    solar = plan.get("solar", {"array_w": 0})
    sun_peak = solar["array_w"] * 0.70 / charge["absorption_v"]

    def air_at(t):
        day, hour = FIRST + int(t // 24), math.floor(t % 24) + 0.5
        return (air_of["mean_c"] + air_of.get("yearly_swing_k", 18) / 2 * math.cos(2 * math.pi * (day - 200) / 365)
                + air_of.get("daily_swing_k", 10) / 2 * math.cos(2 * math.pi * (hour - 15) / 24))

    def sun_at(t):
        """A half sine from sunrise to sunset that has the sun hours of the plan."""
        if not sun_peak:
            return 0.0
        day = FIRST + int(t // 24)
        lean = math.radians(23.45 * math.sin(2 * math.pi * (284 + day) / 365))
        half = math.degrees(math.acos(-math.tan(math.radians(air_of["latitude_deg"])) * math.tan(lean))) / 15
        hour = t % 24
        if abs(hour - 12) >= half:
            return 0.0
        return sun_peak * solar["sun_hours"] * math.pi / (4 * half) * math.cos(math.pi * (hour - 12) / (2 * half))

    for load in loads:
        load.deal(air_at)
    state = dict(closed=True, due=False, lowest=1.0, cut_h=0.0, used=0.0, put=0.0)

    def source(y1, air):
        head = 1 - (whole - y1 / c) / ah
        open_v = min(curve(r, head) for r in resting) + chem["resting"]["v_per_k"] * (air - 25)
        inner = base * curve(chem["resistance"]["by_soc"], head) * curve(chem["resistance"]["by_temperature"], air)
        return open_v, inner

    def posts(y, demand, offered, air):
        """Voltage at the posts, current out of them (negative: in), what the loads take."""
        open_v, inner = source(y[0], air)
        watts, amps = demand
        most_v = max(min(charge["absorption_v"] + charge["v_per_k"] * (air - 25), charge["max_v"]), open_v)
        use = lambda v: watts / v + amps
        if offered > 0:
            # What is offered and not used goes in, as far as the battery takes it.
            charge_now = 1 - (whole - y[0] - y[1]) / ah
            takes = min(tail + slope * min(max(1 - charge_now, 0), 1), max(charge["max_c"], tail)) * ah
            # Nothing goes into a well that is full; over its last two thousandths, so that the solver has no step to trip on.
            takes *= min(max((c * whole - y[0]) / (0.002 * c * whole), 0.0), 1.0)
            v = brentq(lambda v: open_v + min(offered - use(v), takes, max((most_v - open_v) / inner, 0)) * inner - v, 6, 20)
            taken = min(offered - use(v), takes, max((most_v - open_v) / inner, 0))
            shown = most_v if 0 <= taken < offered - use(v) - 1e-9 else v
            return shown, -taken, use(shown)
        v = brentq(lambda v: open_v - use(v) * inner - v, 6, 20)
        return v, use(v), use(v)

    def flow(t, y, demand, offered, air):
        _, out, used = posts(y, demand, offered, air)
        whole_now = y[0] + y[1]
        charge_now = 1 - (whole - whole_now) / ah
        rate = -out * (below if charge_now < charge["bulk_to"] else above) if out < 0 else -out
        leak = ah * chem["life"]["self_discharge_month"] / 720 * 2 ** ((air - 25) / 10) * whole_now / whole
        level = k * c * (1 - c) * (y[1] / (1 - c) - y[0] / c)
        return [rate - leak + level, -level, used, max(-out, 0)]

    y = [c * whole, (1 - c) * whole, 0.0, 0.0]
    t = 0.0
    while t < 24 * DAYS - 1e-9:
        day, hour, air = int((t + 1e-7) // 24), (t + 1e-7) % 24, air_at(t + 1e-7)
        into = (t + 1e-7) % 1.0
        edges = sorted({1.0} | {n / 12 for n in range(1, 12)} | {e for l in loads for e in l.edges(int(t + 1e-7)) if e > 0})
        end = math.floor(t + 1e-7) + next(e for e in edges if e > into + 1e-9)
        offered = parts["charger"] if within(drives, drive_days, day, hour) else 0.0
        offered += mains["current_a"] if within(plugged, mains_days, day, hour) else 0.0
        offered += sun_at((t + end) / 2)
        while t < end - 1e-9:
            watts = idle + sum(l.watts for l in loads if not l.current and l.on(t + 1e-7)) if state["closed"] else 0.0
            amps = sum(l.watts / 12 for l in loads if l.current and l.on(t + 1e-7)) if state["closed"] else 0.0
            demand = (watts, standing + amps)

            def sensed(t, y):
                v, _, _ = posts(y, demand, offered, air)
                return v - (watts / v + amps) * parts["between"]

            def turns(t, y):
                if state["closed"]:
                    return sensed(t, y) - parts["cut"]
                return posts(y, demand, offered, air)[0] - parts["reconnect"]

            def step(until, events=None):
                return solve_ivp(flow, (t, until), y, args=(demand, offered, air), events=events, rtol=1e-6, atol=1e-8,
                                 max_step=1 / 12)

            if state["due"] or (turns(t, y) < 0) == state["closed"]:
                # It is low (or high again) already: wait for the delay, unless the loads change before.
                until = min(end, t + parts["delay"] / 3600)
                y, whole_delay = list(step(until).y[:, -1]), until - t >= parts["delay"] / 3600 - 1e-9
                state["cut_h"] += 0.0 if state["closed"] else until - t
                t, state["due"] = until, False
                if whole_delay and (turns(t, y) < 0) == state["closed"]:
                    state["closed"] = not state["closed"]
            else:
                event = lambda t, y, *_: turns(t, y)
                event.terminal, event.direction = True, -1 if state["closed"] else 1
                got = step(end, event)
                y = list(got.y[:, -1])
                state["cut_h"] += 0.0 if state["closed"] else got.t[-1] - t
                t, state["due"] = (got.t[-1], True) if got.status == 1 else (end, False)
            assert posts(y, demand, offered, air)[0] > protection
            state["lowest"] = min(state["lowest"], 1 - (whole - y[0] - y[1]) / ah)
    end = 1 - (whole - y[0] - y[1]) / ah
    return state["lowest"], state["cut_h"], y[2], y[3], end


if __name__ == "__main__":
    print(f"# scipy {scipy.__version__}, solve_ivp RK45, rtol 1e-6; fortnights.py")
    for name, parts in PARTS.items():
        found = ";".join(f"{x:.5f}" for x in fortnight(name))
        given = ";".join(f"{parts[p]:g}" for p in ["ah", "charger", "cut", "reconnect", "delay", "between"])
        print(f"{name};{given};{found}")
