"""Which link of a tray is the weakest? Its rim by anaStruct 1.7.0 (PyPI), a general solver of plane frames.

Run: python trays.py > ../data/trays.csv   (numpy 2.4.6, anastruct 1.7.0; seed fixed)

For 200 drawn trays: pulls of the studs from the elastic bolt group, the rim as a frame of a strip 1 mm wide that stands
on its bend (evenly pressed, and at its upper edge), then the formulas of EN 1993-1-5, EN 1993-1-8, EN 1995-1-1, Roark and
Winkler written anew (floors.py). Columns as those of baskets.py.
"""
import logging, math, random, sys
import floors
from anastruct import SystemElements

logging.disable(logging.CRITICAL)
G = 9.80665
STUDS = {"M6": (6, 20.1, 6.6), "M8": (8, 36.6, 9.0), "M10": (10, 58.0, 11.0), "M12": (12, 84.3, 13.5)}
SHOCKS = {"road-crash": (20, 8, 10), "heavy-vehicle-crash": (10, 5, 10), "equipment-10g": (10, 10, 10), "rough-track": (3, 3, 5)}
FY, FU = 235 / 1.1, 360 / 1.25


def rim(push, rim, long, t, edge):
    """Moment at the bend of a rim `long` mm long: an upright bar on a fixed foot."""
    s = SystemElements(EA=210000 * long * t, EI=210000 * long * t**3 / 12)
    s.add_element([(0, 0), (0, rim)])
    s.add_support_fixed(1)
    if edge:
        s.point_load(2, Fx=push, Fy=0)
    else:
        s.q_load(q=push / rim, element_id=1, direction="x")
    s.solve()
    m = s.get_element_results(1, verbose=True)["M"]
    return max(abs(v) for v in m)


def bolt(T, V, area):
    pt, ft, fv = 580, 0.9 * 800 * area / 1.25, 0.6 * 800 * area / 1.25
    return max(math.sqrt(T * T + 3 * V * V) / (pt * area), V / fv + T / (1.4 * ft), T / ft)


def used(b):
    t, n, d, area, hole = b["t"], b["n"], *STUDS[b["stud"]]
    r, k = b["r"], min(max((0.65 + 0.5 * math.log10(min(b["r"] / b["t"], 5))) / 2, 0.2), 0.5)
    bend = math.pi / 2 * (r + k * t)
    L, W, H, gap = b["L"], b["W"], b["H"], b["gap"]
    flat = lambda side: 2 * (b["rim"] - r) + side - 2 * r + 2 * bend
    corner = b["rim"] - r + bend / 2
    steel = 7850e-9 * t * (flat(L) * flat(W) - 4 * corner**2)
    mass = b["mass"] + steel
    lever = H / 2 + t
    xs = [(i - (n - 1) / 2) * (L - 6 * d) / (n - 1) for i in range(n)]
    half = (W - 6 * d) / 2
    along, across, upright = SHOCKS[b["shock"]]
    count, worst = 2 * n, floors.Worst()
    note, floor = worst.note, floors.Floor(b, d, basket=False)

    middle, neutral = r + t / 2, t / math.log((r + t) / r)
    winkler = max((neutral - r) / ((middle - neutral) * r) * t / 6, 1)
    thin = min(t * (r + k * t) / (r + t / 2), t)
    rod_d, rod_area = STUDS[b["rod"]][:2]
    tips = {"along": along * H / (L - 2 * gap) - 1, "left": across * H / (W - 2 * gap) - 1, "up": upright - 1}
    rod_way = max(["up", "along", "left"], key=lambda w: max(tips[w], 0))
    rod_pull = G * b["mass"] * max(tips[rod_way], 0) / b["rods"]
    for way, level in (("along", along), ("left", across), ("up", upright)):
        f, weight = level * G * mass, G * mass
        if way == "up":
            pull, shear = (f - weight) / count, 0
            pulls = 0
        else:
            arms = xs if way == "along" else [-half, half]
            second = 2 * sum(x * x for x in xs) if way == "along" else count * half * half
            pull, shear = -weight / count + f * lever * max(arms) / second, f / count
            pulls = sum(max(0, -weight / count + f * lever * x / second) for x in arms) * (2 if way == "along" else n)
        pull = max(pull, 0)
        share = b["mass"] / mass
        if way != "up":
            long = W if way == "along" else L
            for edge in (False, True):
                m = rim(f * share, b["rim"], long, t, edge)
                note("rim of the tray", m * winkler / (long * thin**2 / 6) / FY)
        stands = 4 / 3 * math.pi * t * t * FY
        note("base around studs and rods", pull / stands)
        if way == rod_way:
            note("hold-down rods", bolt(rod_pull, 0, rod_area))
            note("base around studs and rods", rod_pull / stands)
        if way == "up":
            bars = max(math.ceil(b["rods"] / 2), 1)
            note("case of the battery", (f - weight) * share / (bars * 30 * (W - 2 * gap)) / 2)
        note("stud with its prying", bolt(pull, shear, area) + floor.bent(shear, area, 580))
        note("hole and nut in the metal", max(shear / (2.5 * min(3 * d / (3 * hole), 1) * FU * d * t), pull / (0.6 * math.pi * 1.6 * d * t * FU)))
        s, ts = b["spreader"], b["spreader_t"]
        note("spreader plate", pull / s * max((s - 2 * d) / 2, 0) ** 2 / 2 * 6 / ((s - hole) * ts**2) / FY)
        floor.note(note, pull)
        if floor.kind == "wood" and way != "up":
            # Down over the edge on which it tips, as far as the sheet is stiff.
            crush = floors.CRUSH
            long, deep = (W, L) if way == "along" else (L, W)
            note("wood under its base", (pulls + weight) / (long * min(t * math.sqrt(FY / (3 * crush)), deep / 2)) / crush)
    if floor.kind == "wood":
        note("wood under its base", (upright + 1) * G * mass / (L * W) / floors.CRUSH)
    return worst.links


def draw(rng):
    t = rng.choice([2, 3, 4, 5, 6, 8])
    b = dict(
        mass=rng.choice([8, 12, 20, 30, 45, 60]), W=rng.randrange(150, 400, 10), L=rng.randrange(220, 620, 20),
        H=rng.randrange(160, 300, 10), gap=rng.choice([3, 5, 8]), t=t, n=rng.choice([2, 3, 4]), r=rng.choice([t, t + 4]),
        rim=rng.choice([20, 30, 40]), stud=rng.choice(["M6", "M8", "M10", "M12"]), shock=rng.choice(list(SHOCKS)),
        rods=rng.choice([2, 4]), rod=rng.choice(["M6", "M8", "M10"]), deck=rng.choice([2, 3, 5, 8]), span=rng.choice([150, 300]),
        spreader=rng.choice([60, 80, 120]), spreader_t=rng.choice([4, 6, 10]),
    )
    return floors.draw(rng, b)


LINKS = ["rim of the tray", "base around studs and rods", "hold-down rods", "case of the battery", "stud with its prying",
         "hole and nut in the metal", "spreader plate", *floors.LINKS, "wood under its base"]

if __name__ == "__main__":
    rng, first = random.Random(22), True
    for _ in range(int(sys.argv[1]) if len(sys.argv) > 1 else 200):
        b = draw(rng)
        if b["rim"] <= b["r"] + b["t"]:
            b["rim"] = 40
        if first:
            print(",".join([*b, *LINKS, "weakest", "stands"]))
            first = False
        print(floors.row(b, used(b), LINKS), flush=True)
