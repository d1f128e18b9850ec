"""What baskets.py and trays.py have alike: the floor under them, and which link stands the least.

Formulas written anew: round plates with a clamped edge (Timoshenko, Roark), webs between two loads (EN 1993-1-5 6.4),
wood across the grain (EN 1995-1-1 6.1.5 and 8.5.2). Three kinds of floor: sheet, hollow (two faces with ribs, spacers
half a millimetre shorter than it is deep) and wood.
"""
import math

FY, FU, E = 235 / 1.1, 360 / 1.25, 210000
# Plywood: bending, panel shear and crush across the grain over 1.2; under a washer three times as much.
BENDING, SHEAR, CRUSH = 20 / 1.2, 2.5 / 1.2, 2.5 / 1.2
WOOD = 3 * CRUSH
LINKS = ["deck or floor", "faces of the hollow floor", "rib of the hollow floor", "wood under its plates"]
SHORTER, NUT, SCATTER = 0.5, 0.2, 0.3


def draw(rng, b):
    """The floor, and the torque of its nuts."""
    kind = rng.choice(["sheet", "sheet", "hollow", "wood"])
    b["floor"] = kind
    b["depth"] = rng.choice([25, 32, 40, 60]) if kind == "hollow" else ""
    b["rib"] = rng.choice([0.8, 1, 1.5, 2, 3]) if kind == "hollow" else ""
    if kind == "wood":
        b["deck"] = rng.choice([12, 18, 27])
    b["torque"] = rng.choice([3, 6, 12, 25])
    return b


class Worst:
    """Each link's worst share, and how many times its load it stands at the least."""

    def __init__(self):
        self.links = {}

    def note(self, link, used, stands=None):
        stands = 1 / max(used, 1e-3) if stands is None else stands
        known = self.links.get(link, (0, 1e3))
        self.links[link] = (max(known[0], used), min(known[1], stands))


def eased(held, loose, bears):
    """Share, and how many times it stands, of a link under ears of whose moment wood bears `bears` times as much."""
    share = lambda times: times * (held if bears >= times else held * bears / times + loose * (1 - bears / times))
    used = lambda times: max(times * held, share(times))
    low, high = 0.0, 1e3
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if used(middle) <= 1 else (low, middle)
    return used(1), low


def plate(t, span, pad):
    """Greatest stress of a round plate for each newton, and the force that bends it by a millimetre, but for E."""
    a = span / 2
    c = min(pad / math.sqrt(math.pi), a)
    sigma = 6 / t**2 / (4 * math.pi) * max(1.3 * (math.log(a / c) + c * c / (4 * a * a)), 1 - c * c / (2 * a * a))
    stiff = 16 * math.pi * t**3 / (12 * 0.91) / (a * a - c * c * math.log(a / c) - 0.75 * c * c)
    return sigma, stiff


class Floor:
    def __init__(self, b, d, basket):
        self.kind, t, span, s = b["floor"], b["deck"], b["span"], b["spreader"]
        self.spacer = b["depth"] - SHORTER if self.kind == "hollow" else 0
        clamp = (1 + SCATTER) * b["torque"] * 1000 / (NUT * d)
        sigma, stiff = plate(t, span, s)
        if self.kind == "wood":
            self.deck = max(sigma / BENDING, 1 / (4 * s * t) / SHEAR, 1 / s**2 / CRUSH)
            self.under, self.clamp = 1 / (s * s * WOOD), clamp
            return
        self.deck = max(sigma / FY, 1 / (0.5 * s * t * FU))
        if self.kind == "sheet":
            return
        under = min(b["b"], b["rim"]) if basket else s
        lower, springs = plate(t, span, under)
        gives = 1 / stiff + (1 / springs if basket else 0)
        self.draws = min(SHORTER * E / gives, clamp)
        self.bends = max(sigma, lower) / FY if basket else sigma / FY
        self.share = (1 / springs) / gives if basket else 0.5
        pad, h = min(s, under), b["depth"] - 2 * t
        squash = (pad + 2 * t) * b["rib"] * FY
        self.rib = squash * min(1, 0.5 / math.sqrt(squash / (0.9 * 3.5 * E * b["rib"] ** 3 / h)))

    def note(self, note, pull):
        note("deck or floor", pull * self.deck)
        if self.kind == "wood":
            self.clamped(note, "wood under its plates", 0, self.clamp * self.under, pull * self.under)
        if self.kind == "hollow":
            drawn = self.draws * self.deck
            self.clamped(note, "faces of the hollow floor", self.draws * self.bends, drawn, pull * self.deck * self.share)
            self.clamped(note, "rib of the hollow floor", 0, self.draws / self.rib, pull / self.rib)

    def bent(self, shear, area, proof):
        """A stud in its spacer, clamped at both faces, bends like a letter S under a sideways force."""
        across = math.sqrt(4 * area / math.pi)
        return shear * self.spacer / 2 / (math.pi * across**3 / 32) / proof

    @staticmethod
    def clamped(note, link, least, lasts, pulled):
        """Used by tightening too, which stays: so many times the pull brings it to its strength."""
        stands = 0 if max(least, lasts) > 1 else min((1 - lasts) / max(pulled, 1e-9), 1e3)
        note(link, max(least, lasts + pulled), stands)


def row(b, links, names):
    """A line of the table; nothing where a link is not there. The weakest stands the least."""
    shares = [f"{links[n][0]:.5g}" if n in links else "" for n in names]
    weakest = min(links, key=lambda n: (links[n][1], -links[n][0]))
    return ",".join([*map(str, b.values()), *shares, weakest, f"{links[weakest][1]:.5g}"])
