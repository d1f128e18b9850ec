"""Which link of a basket is the weakest? Frames by anaStruct 1.7.0 (PyPI), a general solver of plane frames.

Run: python baskets.py > ../data/baskets.csv   (numpy 2.4.6, anastruct 1.7.0; seed fixed)

For 200 drawn baskets: shares from the elastic bolt group, moments of each cross strip from anaStruct (ears clamped at
their studs; ears turning on their studs, tips and bends that only press on the deck let go and caught by hand; on wood
ears that turn freely under what wood no longer holds), then the formulas of EN 1993-1-1, EN 1993-1-5, EN 1993-1-8,
EN 1995-1-1, Roark and Winkler written anew (floors.py). Columns: what is drawn, then the share of strength of each link,
the weakest, and how many times the mass it stands.
"""
import logging, math, random, sys
import floors
import numpy as np
from anastruct import SystemElements

logging.disable(logging.CRITICAL)
G = 9.80665
STUDS = {"M8": (8, 36.6, 9.0), "M10": (10, 58.0, 11.0), "M12": (12, 84.3, 13.5)}
SHOCKS = {"road-crash": (20, 8, 10), "heavy-vehicle-crash": (10, 5, 10), "equipment-10g": (10, 10, 10), "rough-track": (3, 3, 5)}
FY, FU, WELD = 235 / 1.1, 360 / 1.25, 360 / (math.sqrt(3) * 0.8 * 1.25)


def solve(b, down, side, above, corners, ears):
    """Moments and pulls of one strip: {place: (moment, pull)} and the pull of the worse stud."""
    wide, high = b["W"] + b["t"], b["H"]
    stud, tip = b["rim"] / 2 + b["t"] / 2, b["rim"] + b["t"] / 2
    corner = min(max(b["gap"] + b["t"] / 2, 1), wide * 0.4)
    x = [-wide / 2 - tip, -wide / 2 - stud, -wide / 2, -wide / 2, -wide / 2 + corner]
    y = [0, 0, 0, -high, -high]
    nodes = list(zip(x, y)) + [(-p, q) for p, q in reversed(list(zip(x, y)))]
    ea, ei = 210000 * b["b"] * b["t"], 210000 * b["b"] * b["t"] ** 3 / 12
    at_corner = 1.0
    if side:
        at_corner = min(1, down / 2 * (wide - 2 * corner) / (side * above)) if above > 0 else 1.0
    to_leg = side * (1 - at_corner) if corners else side
    clamped = ears == "clamped"
    stops, touching = (set(), set()) if ears != "stopped" else ({1, 3, 8, 10}, set())
    for _ in range(12):
        s = SystemElements(EA=ea, EI=ei)
        for p, q in zip(nodes, nodes[1:]):
            s.add_element([p, q])
        for node in (2, 9):
            s.add_support_fixed(node) if clamped else s.add_support_hinged(node)
        for node in touching:
            s.add_support_roll(node, direction=2)
        if corners:
            low = side - to_leg
            tips = low * above / (wide - 2 * corner)
            s.point_load(5, Fx=0, Fy=tips - down / 2)
            s.point_load(6, Fx=0, Fy=-tips - down / 2)
            if low:
                s.point_load(7, Fx=low, Fy=0)
        elif down:
            for element in (4, 5, 6):
                s.q_load(q=-down / wide, element_id=element, direction="y")
        if to_leg:
            s.q_load(q=to_leg / high, element_id=7, direction="x")
        s.solve()
        push = {n: -s.get_node_results_system(n)["Fy"] for n in (1, 2, 3, 8, 9, 10)}
        moved = {n: s.get_node_displacements(n)["uy"] for n in stops}
        after = {n for n in stops if (push[n] * SIGN < 0 if n in touching else moved[n] * SIGN_U > 1e-9)}
        if after == touching:
            break
        touching = after
    inside = {}
    for e in range(1, 10):
        r = s.get_element_results(e, verbose=True)
        m = r["M"]
        inside[e] = (abs(m[0]), abs(m[-1]), max(abs(v) for v in m), max(abs(r["Nmin"] or 0), abs(r["Nmax"] or 0)))
    ends = {e: inside[e][:2] for e in inside}
    pull = []
    for node, (inner, outer) in {2: (2, 1), 9: (8, 9)}.items():
        up = max(0.0, push[node] * SIGN)
        m = max(inside[inner][0 if node == 2 else 1], inside[outer][1 if node == 2 else 0])
        pull.append(up + (m / max(min(tip - stud, stud), 1) if clamped else 0))
    return {
        "bottom": (max(inside[5][2], between(s, 5), ends[4][1], ends[6][0], between(s, 4), between(s, 6)), max(inside[e][3] for e in (4, 5, 6))),
        "bend": (max(ends[2][1], *ends[3], ends[4][0], ends[6][1], *ends[7], ends[8][0]), max(inside[e][3] for e in (2, 3, 4, 6, 7, 8))),
        "leg": (max(between(s, 3), between(s, 7)), max(inside[3][3], inside[7][3])),
        "ear": max(ends[1][1], ends[2][0], ends[8][1], ends[9][0]),
        "stud": max(pull),
    }


def between(s, element):
    """Greatest moment within, at the vertex of the parabola through anaStruct's points; nothing where it is not within."""
    m = s.get_element_results(element, verbose=True)["M"]
    x = np.linspace(0, 1, len(m))
    a, b, c = np.polyfit(x, m, 2)
    if abs(a) < 1e-6 * max(abs(m)):
        return 0.0
    vertex = -b / (2 * a)
    return abs(c + b * vertex + a * vertex * vertex) if 0 < vertex < 1 else 0.0


def signs():
    """Which way anaStruct counts reactions and displacements: a bar held at its left that is pulled down."""
    s = SystemElements()
    s.add_element([(0, 0), (100, 0)])
    s.add_support_fixed(1)
    s.point_load(2, Fx=0, Fy=-1)
    s.solve()
    return (1 if -s.get_node_results_system(1)["Fy"] > 0 else -1), (1 if s.get_node_displacements(2)["uy"] < 0 else -1)


SIGN, SIGN_U = signs()


def used(b):
    t, w, n, d, area, hole = b["t"], b["b"], b["n"], *STUDS[b["stud"]]
    r, k = b["r"], min(max((0.65 + 0.5 * math.log10(min(b["r"] / b["t"], 5))) / 2, 0.2), 0.5)
    bend = math.pi / 2 * (r + k * t)
    L, W, H = b["L"], b["W"], b["H"]
    cross = 2 * (b["rim"] - r) + 2 * (H - 2 * r - t) + W - 2 * r + 4 * bend
    long = 2 * (H - r) + L - 2 * r + 2 * bend
    a, ta = b["leg"], b["leg_t"]
    c_axis = (a * a + a * ta - ta * ta) / (2 * (2 * a - ta))
    # Mitred around the strips, the leg that lies flat pointing out: as long as the way round at the section's centre (Pappus).
    strap = (2 * (L + W) + 8 * (t + c_axis)) * (2 * a - ta) * ta
    steel = 7850e-9 * (t * w * (n * cross + long) + b["straps"] * strap)
    mass = b["mass"] + steel
    lever = H - (H - b["gap"]) / 2
    rows = [(i - (n - 1) / 2) * (L - w) / (n - 1) for i in range(n)]
    half = (W + 2 * t + b["rim"]) / 2
    fub = 800
    pt, ft, fv = 580, 0.9 * fub * area / 1.25, 0.6 * fub * area / 1.25
    along, across, upright = SHOCKS[b["shock"]]
    worst = floors.Worst()
    note, floor = worst.note, floors.Floor(b, d, basket=True)
    # Wood presses up on what is stiff of an ear from its stud to its tip, no more than it stands under a washer.
    reach = min(b["rim"] / 2, (b["rim"] + t) / 2, d + t * math.sqrt(FY / (3 * floors.WOOD)))
    wood = floors.WOOD * w * reach**2 / 2
    w_angle = (ta * (a - c_axis) ** 3 + a * c_axis**3 - (a - ta) * (c_axis - ta) ** 3) / 3 / (a - c_axis) * 0.95  # rounded toes
    a_angle = ta * (2 * a - ta)
    middle, neutral = r + t / 2, t / math.log((r + t) / r)
    winkler = (neutral - r) / ((middle - neutral) * r) * t / 6
    thin = t * (r + k * t) / (r + t / 2)
    for way, force in (("along", along), ("left", across), ("down", upright)):
        f, weight = force * G * mass, G * mass
        if way == "along":
            pull = weight / (2 * n) + f * lever * max(rows) / (2 * sum(x * x for x in rows))
            down, side, edge = 2 * pull, 0, f / (2 * n) * lever
        elif way == "left":
            pull = weight / (2 * n) + f * lever / (2 * n * half)
            down, side, edge = weight / n, f / n, 0
        else:
            pull, edge, side = (f + weight) / (2 * n), 0, 0
            down = 2 * pull
        shear = 0 if way == "down" else f / (2 * n)
        for corners in (False, True):
            both = [solve(b, down, side, max(H - lever, 0), corners, c) for c in ("clamped", "stopped")]
            place = lambda p: tuple(max(x[p][i] for x in both) for i in (0, 1))
            stress = lambda m, N, tt, factor=1, e=0: (factor * m / (w * tt**2 / 6) + N / (w * tt) + e / (tt * w * w / 6)) / FY
            bent = {
                "cross strip under the battery": lambda of: stress(*of("bottom"), t),
                "bend of a cross strip": lambda of: stress(*of("bend"), min(thin, t), max(winkler, 1), edge),
                "leg of a cross strip": lambda of: stress(*of("leg"), t, 1, edge),
            }
            loose = solve(b, down, side, max(H - lever, 0), corners, "loose") if floor.kind == "wood" else None
            for link, used_by in bent.items():
                if loose is None:
                    note(link, used_by(place))
                else:
                    note(link, *floors.eased(used_by(place), used_by(lambda p: loose[p]), wood / max(x["ear"] for x in both)))
            note("ear at its stud", max(x["ear"] for x in both) / ((w - hole) * t * t / 6) / FY)
            T = max(x["stud"] for x in both)
            bolt = lambda T: max(math.sqrt(T * T + 3 * shear * shear) / (pt * area), shear / fv + T / (1.4 * ft), T / ft)
            note("stud with its prying", max(bolt(T), bolt(pull)) + floor.bent(shear, area, pt))
            e1 = min(b["rim"], w) / 2
            note("hole and nut in the metal", max(shear / (2.5 * min(e1 / (3 * hole), 1) * FU * d * t), T / (0.6 * math.pi * 1.6 * d * t * FU)))
            s, ts = b["spreader"], b["spreader_t"]
            note("spreader plate", T / s * max((s - 2 * d) / 2, 0) ** 2 / 2 * 6 / ((s - hole) * ts**2) / FY)
            floor.note(note, T)
        if way == "down":
            continue
        gaps = n - 1
        push, span = (f, W) if way == "along" else (f / gaps, L / gaps)
        pulled = push / (2 * b["straps"]) / a_angle
        note("side strap", (push * span / 8 / b["straps"] / w_angle + pulled) / FY)
        note("weld", push / (2 * b["straps"]) / (b["throat"] * b["weld"]) / WELD)
    return worst.links


def draw(rng):
    t = rng.choice([4, 5, 6, 8, 10, 12])
    b = dict(
        mass=rng.choice([8, 12, 20, 30, 45, 60]), W=rng.randrange(150, 400, 10), L=rng.randrange(220, 620, 20),
        H=rng.randrange(160, 300, 10), gap=rng.choice([3, 5, 8]), t=t, b=rng.choice([40, 50, 60, 80]), n=rng.choice([2, 3, 4]),
        r=rng.choice([t, t + 4]), rim=rng.choice([40, 50, 60]), stud=rng.choice(list(STUDS)), shock=rng.choice(list(SHOCKS)),
        straps=rng.choice([1, 2]), leg=rng.choice([30, 40, 50]), leg_t=rng.choice([3, 5]), throat=3, weld=rng.choice([20, 40, 80]),
        deck=rng.choice([3, 5, 8]), span=rng.choice([150, 300]), spreader=rng.choice([60, 80, 120]), spreader_t=rng.choice([4, 6, 10]),
    )
    return floors.draw(rng, b)


LINKS = ["cross strip under the battery", "bend of a cross strip", "leg of a cross strip", "ear at its stud", "side strap", "weld",
         "stud with its prying", "hole and nut in the metal", "spreader plate", *floors.LINKS]

if __name__ == "__main__":
    rng, first = random.Random(21), True
    for _ in range(int(sys.argv[1]) if len(sys.argv) > 1 else 200):
        b = draw(rng)
        if first:
            print(",".join([*b, *LINKS, "weakest", "stands"]))
            first = False
        print(floors.row(b, used(b), LINKS), flush=True)
