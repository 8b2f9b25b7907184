"""How far the work gives way under a last cut, worked again from the description, the shop file and the cuts that the plan tells. Used by figures_check.py.

The stepped bar by unit loads (Castigliano): y = sum of the integral of M m / (E I), every stretch exactly, as its moments are straight lines (Simpson's rule is exact for
their product). A center beside a chuck, and a steady rest, take the force that closes the gap left there (method of forces). Any strength-of-materials text.
Cutting force: Kienzle, F = kc x chip section, kc by a straight line of logarithms between two printed feeds. Specific forces: a cutting tool maker's table; stainless and
how free-cutting steel is easier from memory; modulus: Callister, Materials Science and Engineering, table B.2 (1018 and 12L14 205, stainless 316 193, other steels 207 GPa).
.4 of the force is radial, the last cut is .005 in / 0.13 mm deep and fed by .004 in / 0.1 mm where the shop file says nothing (common practice, no source). A pass
without infeed leaves K C / (1 + K C) of what was left, K newtons a mm of depth, C mm a newton (plain mechanics of two springs).
"""
import math
import re

from figures_written import value
from part_written import Part

# N/mm2 at a feed of .1, .2, .3 mm a turn.
FEEDS = (0.1, 0.2, 0.3)
CLASSES = {"mild": (3610, 3100, 2720), "medium": (3080, 2700, 2570), "chrome molybdenum": (3610, 3200, 2880)}
# What a material counts as, how much easier it is cut, its modulus in N/mm2.
METALS = {"1018": ("mild", 1.0, 205e3), "12L14": ("mild", 0.8, 205e3), "1045": ("medium", 1.0, 207e3), "C45": ("medium", 1.0, 207e3),
          "4140": ("chrome molybdenum", 1.0, 207e3), "1.4404": ("stainless", 1.0, 193e3)}
RADIAL, SHARE, PLACES = 0.4, 0.5, 16


def specific(metal, thick):
    """N/mm2 at a chip so thick, mm."""
    name, easier, _ = metal
    thick = max(thick, 0.02)
    if name == "stainless":
        return 3300.0 * (thick / 0.2) ** -0.21
    i = 1 if thick >= FEEDS[1] else 0
    (a, b), (ka, kb) = FEEDS[i:i + 2], CLASSES[name][i:i + 2]
    return easier * ka * (thick / a) ** (math.log(kb / ka) / math.log(b / a))


def simpson(f, a, b):
    return (b - a) / 6.0 * (f(a) + 4.0 * f((a + b) / 2.0) + f(b))


class Bar:
    """Stretches (from, to, diameter) in mm from the chuck or the left center outward."""

    def __init__(self, stretches, hold, modulus, rest=None):
        self.stretches, self.hold, self.modulus, self.rest = stretches, hold, modulus, rest
        self.long = stretches[-1][1]

    def energy(self, m, n, kinks):
        """The integral of M m / (E I)."""
        total = 0.0
        for a, b, d in self.stretches:
            stops = sorted({a, b, *(k for k in kinks if a < k < b)})
            stiff = self.modulus * math.pi * d ** 4 / 64.0
            total += sum(simpson(lambda x: m(x) * n(x), p, q) for p, q in zip(stops, stops[1:])) / stiff
        return total

    def at(self, x):
        """How far it gives at x under one newton there."""
        own = lambda at: (lambda s: max(at - s, 0.0))
        if self.hold == "between centers":
            left = 1.0 - x / self.long
            m = lambda s: left * s - max(s - x, 0.0)
            return self.energy(m, m, [x])
        m = own(x)
        give = self.energy(m, m, [x])
        prop = self.long if self.hold == "chuck and center" else self.rest
        if prop is None:
            return give
        n = own(prop)
        push = self.energy(m, n, [x, prop]) / self.energy(n, n, [prop])
        return give - push * self.energy(m, n, [x, prop])


class Work:
    """The work as it stands between two operations: stretches (from, to, diameter) in the part's unit from the datum face, holes likewise."""

    def __init__(self, plan, bar, raised=True):
        self.fine, self.raised = 1e-9, raised
        ops = [o for s in plan["setups"] for o in s["operations"]]
        faces = [o["span"] for o in ops if o["verb"] == "face" and o["span"]]
        ends = [v for s in faces for v in s.values()] or [0.0]
        self.outside = [(min(ends), max(ends), bar)]
        self.holes = []

    def cut(self, op):
        span, to = op["span"], op["to_diameter"]
        if op["verb"] == "face" and span and op["end"] in ("datum", "far"):
            face = max(span.values()) if op["end"] == "datum" else min(span.values())
            keep = (face, math.inf) if op["end"] == "datum" else (-math.inf, face)
            self.outside = [(max(a, keep[0]), min(b, keep[1]), d) for a, b, d in self.outside if min(b, keep[1]) - max(a, keep[0]) > self.fine]
        if not span or to is None or op["verb"] in ("tap", "mill", "center"):
            return
        lo, hi = min(span.values()), max(span.values())
        if op["inside"] or op["verb"] == "drill":
            if op["inside"]:
                self.holes.append((lo, hi, to))
            return
        self.turned(lo, hi, to, self.raised and op["verb"] == "knurl")

    def turned(self, lo, hi, to, raised=False):
        """Down to a diameter; a knurl is raised to it."""
        out = []
        for a, b, d in self.outside:
            for p, q, size in ((a, min(b, lo), d), (max(a, lo), min(b, hi), to if raised else min(d, to)), (max(a, hi), b, d)):
                if q - p > self.fine:
                    out.append((p, q, size))
        self.outside = out

    def solid(self):
        """Stretches, each of the solid diameter that bends as much."""
        stops = sorted({v for a, b, _ in self.outside + self.holes for v in (a, b)})
        for a, b in zip(stops, stops[1:]):
            out = [d for p, q, d in self.outside if p - self.fine <= a and b <= q + self.fine]
            hole = [d for p, q, d in self.holes if p - self.fine <= a and b <= q + self.fine]
            if out:
                yield a, b, max(out[0] ** 4 - max(hole, default=0.0) ** 4, 0.0) ** 0.25


class Give:
    def __init__(self, plan, shop, bar, raised=True):
        self.plan, self.bar, self.raised = plan, bar, raised
        self.inch = plan["units"] == "in"
        self.mm = 25.4 if self.inch else 1.0
        text = open(plan["file"], encoding="utf-8").read()
        self.part = Part(text)
        name = next((l.split(":", 1)[1].split("#")[0].split() for l in text.splitlines() if l.startswith("material:")), [""])[0]
        self.metal = METALS.get(name)
        own = shop.get("units", plan["units"])
        self.finish = float(shop["finish"]) * (25.4 if own == "in" else 1.0) if "finish" in shop else (0.127 if self.inch else 0.13)
        self.finest = 0.127 if self.inch else 0.13
        self.feed = 0.1016 if self.inch else 0.1

    def stood(self):
        """By the number of each operation: its setup, itself, the work as it then is."""
        out = {}
        for s, o, work in self.works():
            copy = Work(self.plan, self.bar)
            copy.outside, copy.holes = list(work.outside), list(work.holes)
            out[o["number"]] = s, o, copy
        return out

    def works(self):
        """Each operation with the work as it is before it."""
        work = Work(self.plan, self.bar, self.raised)
        for s in self.plan["setups"]:
            for o in s["operations"]:
                yield s, o, work
                work.cut(o)

    def chip(self, op):
        """Depth, section and thickness of the last cut, mm: a thread's is cut straight in, both flanks and the root at once."""
        t = op.get("thread")
        if not t:
            return self.finish, self.finish * self.feed, self.feed
        name = t["designation"]
        half, crest = (14.5, 0.3707) if "ACME" in name else (15.0, 0.366) if name.startswith("Tr") else (30.0, 0.125)
        depth, pitch = t["depth"] * self.mm, t["pitch"] * self.mm
        infeed = min(max(depth / 16.0, 0.05), max(self.finish, 0.05), depth)
        mouth = pitch * (1.0 - crest)
        root = max(mouth - 2.0 * depth * math.tan(math.radians(half)), 0.0)
        return infeed, infeed * mouth, infeed * mouth / (root + 2.0 * depth / math.cos(math.radians(half)))

    def compliance(self, setup, op, work):
        """Most that the work gives along the cut, mm a newton; none where it is not held by what bends."""
        hold = bends(setup["holding"])
        if hold is None or not op["span"] or setup["thrown"]:
            return None
        lo, hi = min(op["span"].values()), max(op["span"].values())
        stands = Work(self.plan, self.bar)
        stands.outside, stands.holes = list(work.outside), list(work.holes)
        if "thread" in op:
            stands.turned(lo, hi, self.root(op))
        grip, datum = setup["grip"], setup["works"] == "datum"
        row = list(stands.solid())
        start = (row[-1][1] if datum else row[0][0]) if hold == "between centers" else (grip["from"] if datum else grip["to"])
        out = []
        for a, b, d in row:
            p, q = (start - b, start - a) if datum else (a - start, b - start)
            if q > 1e-9:
                out.append((max(p, 0.0) * self.mm, q * self.mm, d * self.mm))
        out.sort()
        rest = setup["rest"]
        at = abs((rest["from"] + rest["to"]) / 2.0 - start) * self.mm if rest and hold == "chuck and rest" else None
        bar = Bar(out, hold, self.metal[2], at)
        span = op["span"]
        places = [abs(span["from"] + (span["to"] - span["from"]) * n / PLACES - start) * self.mm for n in range(PLACES + 1)]
        return max(bar.at(min(x, bar.long)) for x in places)

    def root(self, op):
        """What the tool leaves of a thread, nearly cut: of a 60° one the least pitch diameter less .64952 P (plain geometry), of the others the least minor diameter: ISO 2903, one
        and a quarter of the pitch diameter's tolerance and its deviation under the basic one; ASME B1.5, one and a half of it (both from memory)."""
        t = op["thread"]
        name, pd = t["designation"], t["pitch_diameter"]
        wide = pd["max"] - pd["min"]
        if name.startswith("Tr"):
            nominal = float(re.search(r"[\d.]+", name).group(0)) / (25.4 if self.inch else 1.0)
            return nominal - 2.0 * t["depth"] - 1.25 * wide - (nominal - t["pitch"] / 2.0 - pd["max"])
        if "ACME" in name:
            nominal = value(re.match(r"[\d /.]+?(?=-)", name).group(0)) * (1.0 if self.inch else 25.4)
            return nominal - 2.0 * t["depth"] - 1.5 * wide
        return pd["min"] - 0.649519 * t["pitch"]

    def roughing(self, setup, op, work, depth, feed):
        """How far the work springs away under a roughing cut where it is nearly roughed, mm on the radius; depth and feed in mm."""
        nearly = Work(self.plan, self.bar)
        nearly.outside, nearly.holes = list(work.outside), list(work.holes)
        nearly.turned(min(op["span"].values()), max(op["span"].values()), op["to_diameter"])
        return RADIAL * depth * feed * specific(self.metal, feed) * self.compliance(setup, op, nearly)

    def of(self, setup, op, work, depth=None):
        """Error of the diameter, force and depth under a last cut."""
        own, section, thick = self.chip(op)
        if depth:
            own, section = depth, depth * self.feed
        give = self.compliance(setup, op, work)
        force = RADIAL * section * specific(self.metal, thick)
        return None if give is None else (2.0 * force * give, force, own, give)


def bends(holding):
    """What carries the work in a holding, however its jaws are made; none on a mill, a mandrel, the bench."""
    if "between" in holding:
        return "between centers"
    if "chuck" not in holding and "collet" not in holding:
        return None
    return "chuck and center" if "and center" in holding else "chuck and rest" if "rest" in holding else "chuck"


def band(op):
    limits = op["thread"]["pitch_diameter"] if "thread" in op else op["limits"]
    return limits["max"] - limits["min"] if limits else None


def spring(error, force, depth, give, wide, passes=None):
    """Passes until a tenth of the band is left, four at most, and what is left then."""
    share = force / depth * give
    share /= 1.0 + share
    count = 0
    while (count < passes) if passes is not None else (count == 0 or (count < 4 and error > wide / 10.0)):
        error *= share
        count += 1
    return count, error


def told_of(s):
    """What sentences need (figures_sentences.py): the reckoning, and the work before each operation. None where the metal is not one of those above."""
    if not hasattr(s, "give"):
        s.give = Give(s.plan, s.shop, s.bar)
        s.stood = s.give.stood()
    if not s.give.metal:
        raise ValueError("no such metal here")
    return s.give


def barrel(s, gives, passes, left):
    """The work gives way so far; so many passes without infeed leave so much, or next to nothing."""
    s.near("gives way", gives, s.op["barrel"]["gives"])
    s.exactly("passes without infeed", passes, s.op["without_infeed"])
    if left:
        s.near("left by them", left, s.op["barrel"]["left"])
    elif s.op["barrel"]["left"] >= 10.0 ** -len(gives.split(".")[1]):
        s.bad(f"{s.where}: {s.op['barrel']['left']} is told as next to nothing")


def lighter(s, most, usual, gives, percent, *rest):
    """At the usual depth it would give way by more than half of the band: the depth that gives way by half of it, in steps of the cross dial, in eight cuts at most."""
    g = told_of(s)
    error, _, depth, _ = g.of(*s.stood[s.op["number"]])
    wide = band(s.op) * g.mm
    s.near("usual last cut", usual, depth / g.mm)
    s.near("gives way at that", gives, error / g.mm)
    s.near("of its band", percent, 100.0 * error / wide)
    dial = s.shop.get("cross dial")
    least = s.from_shop(dial["division"]) * (0.5 if dial["reads"] == "diameter" else 1.0) if dial else s.pick(0.0005, 0.01)
    deep = math.floor(depth * SHARE * wide / error / g.mm / least + 1e-9) * least
    eased = max(deep, least, (s.op["from_diameter"] - s.op["to_diameter"]) / 16.0)
    s.near("lighter", most, eased)
    s.same(s.where, "lighter", s.op["lighter"], eased, 2e-6 if g.inch else 2e-5)
    barrel(s, *rest)


def rough_lighter(s, most, usual, gives):
    """The work would spring away by more than half of what is left for the finish: so deep that it does not, in steps of the dial."""
    g = told_of(s)
    setup, op, work = s.stood[s.op["number"]]
    worked = g.roughing(setup, op, work, float(usual) * g.mm, op["feed"] * g.mm) / g.mm
    # To what the usual depth is rounded by.
    s.same(s.where, "springs away", float(gives), worked, worked * 0.006)
    if most is None:
        return
    last = next(o for x in s.plan["setups"] for o in x["operations"] if o["verb"] == "finish" and o["feature"] == op["feature"] and not o["inside"])
    room = (op["to_diameter"] - last["to_diameter"]) / 4.0
    step = s.pick(0.001, 0.02)
    deep = math.floor(float(usual) * room / worked / step + 1e-9) * step
    s.near("lighter", most, max(deep, min(g.finest / g.mm, float(usual))))
    s.near("lighter", most, op["lighter"])


def followed(s, letter, gives, percent):
    """It would give way by more than half of its band without the rest."""
    g = told_of(s)
    ops = [o for o in s.setup["operations"] if o["feature"] == letter and o["follow_rest"] and o["verb"] in ("finish", "turn", "thread")]
    share, error = max((e / band(o), e) for o, e in ((o, g.of(*s.stood[o["number"]])[0] / g.mm) for o in ops))
    s.near("gives way", gives, error)
    s.near("of its band", percent, 100.0 * share)


def too_soft(s, letter, gives, times):
    """Held the way the plan says it is too soft in (`too_soft`, worked below), it gives way so far."""
    worst = max((t for t in s.plan["too_soft"] if t["operation"].endswith("-" + letter)), key=lambda t: t["gives"] / t["band"])
    s.near("gives way", gives, worst["gives"])
    s.near("times its band", times, worst["gives"] / worst["band"])


def between_supports(s, letter, diameters, most):
    """A part between centers is as long as it is, one on a center stands out so far."""
    s.exactly("diameters without a rest", most, 10)
    long = s.overall if s.setup["holding"] == "between centers" else s.setup["stick_out"]
    sizes = [o["from_diameter"] if o["verb"] == "thread" else o["to_diameter"] for o in s.setup["operations"] if o["feature"] == letter and o["follow_rest"]]
    s.near("diameters between supports", diameters, min((long / d for d in sizes if d), key=lambda v: abs(v - float(diameters))))


def too_soft_elsewhere(plan, give, same):
    """How far a cut would have given way between centers: as the work stands before it now. In a chuck it would be drawn in otherwise; where, is not told,
    and it is not worked again."""
    for told in plan["too_soft"]:
        setup, op, work = next(found for found in give.stood().values() if found[1]["id"] == told["operation"])
        same(told["operation"], "band", told["band"], band(op), 1e-6)
        if bends(told["setup"]) == "between centers":
            error = give.of({**setup, "holding": "between centers"}, op, work)[0] / give.mm
            same(told["operation"], f"gives way {told['setup']}", told["gives"], error, 0.005 * error)


def check(plan, shop, bar, same, bad):
    """Every barrel of a plan, and no cut that gives way by more than a tenth of its band without one."""
    try:
        give = Give(plan, shop, bar)
    except (OSError, KeyError, StopIteration):
        return
    if not give.metal:
        return
    too_soft_elsewhere(plan, give, same)
    # A knurl is as stiff as something between its blank and its points: where there is one, what is told may lie between the two.
    knurled = any(o["verb"] == "knurl" for s in plan["setups"] for o in s["operations"])
    blank = Give(plan, shop, bar, raised=False).stood() if knurled else {}
    for setup, op, work in give.works():
        last = op["verb"] in ("finish", "turn", "thread") and not op["inside"] and not op["follow_rest"] and not op["for_rest"]
        told, wide = op["barrel"], band(op) if last else None
        if told and not wide:
            bad(f"{op['number']} {op['verb']}: a barrel where nothing was worked")
        if not wide or op["throw"]:
            continue
        worked = give.of(setup, op, work)
        if worked is None:
            continue
        error, force, depth, at_one = worked
        if op["number"] in blank and told:
            soft = give.of(*blank[op["number"]])
            if soft and error <= told["gives"] * give.mm * 1.005 and told["gives"] * give.mm <= soft[0] * 1.005:
                at_one, error = at_one * told["gives"] * give.mm / error, told["gives"] * give.mm
        where = f"{op['number']} {op['verb']} {op['feature']}"
        eased = any("last cuts of at most" in w["reason"] for w in op["why"])
        if not eased and bool(told) != (error / give.mm > 0.1 * wide):
            bad(f"{where}: gives way by {error / give.mm:.6f} of {wide:.6f}, and {'a' if told else 'no'} barrel is told")
        if not told:
            continue
        if eased:
            error, force, depth, at_one = give.of(setup, op, work, op["depth_of_cut"] * give.mm)
        count, left = spring(error, force, depth, at_one, wide * give.mm)
        # Small numbers: to a twentieth of what the sheet shows, or 5 parts in a thousand.
        close = lambda v: 0.005 * v + 0.05 * (1e-5 if give.inch else 1e-4)
        same(where, "gives way", told["gives"], error / give.mm, close(error / give.mm))
        same(where, "passes without infeed", op["without_infeed"], count, 0)
        same(where, "left by them", told["left"], left / give.mm, close(left / give.mm))
