#!/usr/bin/env python3
"""The numbers of findings, worked again from the description, the shop file and the setups of the plan, without turnwright.

Usage: figures_findings.py FINDINGS.csv PLAN.json CHECK.json SHOP.yaml|- [PLAN CHECK SHOP ...]
FINDINGS.csv says of each check that these replies have whether its numbers are worked again here, and whether parts that are drawn have it or generated ones alone. CHECKS has the sentence of each and what works its numbers; every number that a
finding compares must be worked too. Then each number is spoilt, in its sentence the last digit, and must be noticed: of every check at least one of two, of all nine of ten.
Exit 1 with a line for each fault, 2 when unreadable. Limits of the checks: common practice, no source, but where told; the shop files here change none.

Sources: ISO 286 and ISO 2768 (figures_written.py); lead angle = atan(lead / (pi x pitch diameter)); wires .56 to .90 P of 60°, .4873 to .6500 P of Acme (Machinery's Handbook), the trapezoidal by
the same geometry; full thread .8 diameters (ISO 4032); keyseats ISO 773, f = (S - sqrt(S2 - w2)) / 2 (NAVEDTRA 14345); set-over = L (D - d) / (2 l); mouths of center drills ISO 866, ASME
B94.11M; NPT: ASME B1.20.1; bar to ASTM A108: .003 in under its size (all of these from memory).
"""
import csv
import json
import math
import re
import sys

import figures_check
from figures_give import Give, band
from figures_written import IT, NUMBER as SIZE
from figures_written import value
from part_written import Part

N = r"(-?\d*\.?\d+)"
# Of a thread, a chuck.
NAME = r"(?:M|Tr ?)?(?:\d+ )?\d[\d./]*[x-][\w.()/-]*(?: (?:ACME|UNC|UNF|NPT)\S*)?(?: LH)?"
# ISO 773, width: depth in the shaft.
SHAFT = {2.0: 1.2, 3.0: 1.8, 4.0: 2.5, 5.0: 3.0, 6.0: 3.5, 8.0: 4.0, 10.0: 5.0, 12.0: 5.0, 14.0: 5.5}
# Shafts up to which a key of this width and height is usual: ASME B17.1, inches; ISO 773, millimetres (from memory).
KEYS_INCH = ((7 / 16, 3 / 32, 3 / 32), (9 / 16, 1 / 8, 1 / 8), (7 / 8, 3 / 16, 3 / 16), (1.25, 1 / 4, 1 / 4), (1.375, 5 / 16, 5 / 16), (1.75, 3 / 8, 3 / 8), (2.25, 1 / 2, 1 / 2), (2.75, 5 / 8, 5 / 8))
KEYS_MM = ((8, 2, 2), (10, 3, 3), (12, 4, 4), (17, 5, 5), (22, 6, 6), (30, 8, 7), (38, 10, 8), (44, 12, 8), (50, 14, 9), (58, 16, 10))
# ASTM A108: carbon up to .28 % and above, up to 1 1/2 in and above: how much a bar may be under its size.
UNDER = {"low": (0.002, 0.003), "medium": (0.003, 0.004)}
MOUTH = {"A 1/8": 0.265, "A 2.5": 5.3}
E0 = {"3/4-14 NPT": 0.96768}


class Finding:
    """What a finding may be worked from."""

    def __init__(self, f, plan, own, shop, text):
        self.f, self.plan, self.reply, self.shop = f, plan, own, shop
        self.text = "\n".join(re.split(r"(?:^|\s)#", l)[0] for l in text.splitlines())
        self.part, self.inch = Part(text), plan["units"] == "in"
        self.overall, self.worked, self.faults = self.part.overall, set(), []
        self.shop_text = open(shop["path"], encoding="utf-8").read() if shop else ""

    def pick(self, inches, millimetres):
        return inches if self.inch else millimetres

    def near(self, what, told, worked):
        digits = len(told.split(".")[1]) if "." in told else 0
        if worked is None or abs(float(told) - worked) > 0.501 * 10.0 ** -digits + 1e-9:
            self.faults.append(f"{what} {told}, worked {worked}")

    def exactly(self, what, told, worked):
        if abs(float(told) - worked) > 1e-9:
            self.faults.append(f"{what} {told}, worked {worked}")

    def compared(self, **worked):
        """What it compares, by its keys."""
        for key, v in worked.items():
            self.worked.add(key)
            told = self.f["compared"][key]
            fine = 1e-6 if self.inch else 1e-5
            if v is None or not isinstance(told, (int, float)) or abs(told - v) > max(fine, 1e-6 * abs(v)):
                self.faults.append(f"compared {key} {told}, worked {v}")

    def feature(self, n=0):
        letter = self.f["features"][n]
        return next(f for f in self.part.features + self.part.inside if f.letter == letter)

    def section(self, n=0):
        return next(f for f in self.part.sections if f.letter == self.f["features"][n])

    def host(self, at):
        return next(f for f in self.part.sections if f.start - 1e-9 <= at <= f.end + 1e-9)

    def neighbour(self, f, end):
        i = self.part.sections.index(f) + (1 if end else -1)
        return self.part.sections[i] if 0 <= i < len(self.part.sections) else None

    def size(self, f):
        """Of a section as drawn."""
        return self.part.bar if f.main.startswith("stock") else self.part.size(f.main)

    def limits(self, f):
        if f.main.startswith("stock"):
            inches = self.part.bar / (1.0 if self.inch else 25.4)
            carbon = "low" if re.search(r"^material:\s*(?:1018|12L14|1020)", self.text, re.M) else "medium"
            # A bar by the millimetre is drawn to h10 (EN 10278).
            under = UNDER[carbon][inches > 1.5] if self.inch else self.part.band(self.part.bar, 10)
            return self.part.bar - under, self.part.bar
        lim = self.part.limits(f.main)
        # Of a fit the band alone is read; where it lies stands in the plan, which handbook tables hold.
        if re.search(r"\b[a-zA-Z]{1,2}\d{1,2}\b", f.main.replace(" mm", "")):
            cut = [o["limits"] for o in self.ops() if o["feature"] == f.letter and o["verb"] in ("finish", "turn") and o["limits"]]
            return (cut[-1]["min"], cut[-1]["max"]) if cut else lim
        return lim

    def wide(self, f):
        """The band of a drawn diameter: as written, or that of its fit's grade."""
        if m := re.search(r"\b[a-zA-Z]{1,2}(\d{1,2})\b", f.main.replace(" mm", "")):
            to = 25.4 if self.inch else 1.0
            return self.part.band(self.part.size(f.main) * to, int(m.group(1))) / to
        low, high = self.part.limits(f.main)
        return high - low

    def carried(self, f, key):
        found = re.search(rf"{key}:\s*([^,}}]+)", f.get("carries") or "")
        return found.group(1) if found else None

    def ops(self):
        return [o for s in self.plan["setups"] for o in s["operations"]]

    def op(self, verb, n=0):
        return next(o for o in self.ops() if o["verb"] == verb and o["feature"] == self.f["features"][n])

    def setup(self, name):
        return [s for s in self.plan["setups"] if s["setup"] == name]

    def shops(self, key):
        """A length of the shop file, in the part's unit."""
        return figures_check.size(key) * self.to_part() if isinstance(key, str) else float(key) * self.to_part()

    def to_part(self):
        own = self.shop.get("units", self.plan["units"])
        return 1.0 if own == self.plan["units"] else 1 / 25.4 if self.inch else 25.4

    def can_hold(self, key):
        return float(re.search(rf"^can hold:.*\b{key}:\s*±([\d.]+)", self.shop_text, re.M).group(1)) * self.to_part()

    def lengths(self, at):
        """What a length from the datum face may be more or less: ISO 2768-m, or the general one."""
        general = re.search(rf"lengths:\s*±\s*({SIZE})", self.text)
        if general:
            return value(general.group(1))
        return next((half for most, half in ((6, 0.1), (30, 0.2), (120, 0.3), (400, 0.5), (1000, 0.8)) if at <= most), 0.0) if self.part.iso_2768 else 0.0

    def whole(self):
        """Limits of the overall."""
        own = re.search(r"^overall:(.*)$", self.text, re.M).group(1)
        return self.part.limits(own) if re.search(r"[±+]|\.\.", own) else (self.overall - self.lengths(self.overall), self.overall + self.lengths(self.overall))

    def within(self, text, nominal):
        """Least and most of a written length: `0.046 +0.003/-0`, `1.3 H13`, `-0.546 +0.002/-0.004`."""
        text = text.replace("−", "-")
        if m := re.search(rf"±\s*({SIZE})", text):
            return nominal - value(m.group(1)), nominal + value(m.group(1))
        if m := re.search(rf"\+\s*({SIZE})\s*/\s*-?({SIZE})", text):
            return nominal - value(m.group(2)), nominal + value(m.group(1))
        if m := re.search(r"\bH(\d+)\b", text):
            return nominal, nominal + self.part.band(nominal * (25.4 if self.inch else 1), int(m.group(1))) / (25.4 if self.inch else 1)
        return nominal - self.lengths(abs(nominal)), nominal + self.lengths(abs(nominal))

    def pitch(self, name):
        """Pitch, lead, basic pitch diameter and depth of a thread by its designation, in the part's unit."""
        if m := re.match(r"Tr ?([\d.]+)x([\d.]+)(?:\(P([\d.]+)\))?", name):
            d, lead, p = (float(n) for n in (m.group(1), m.group(2), m.group(3) or m.group(2)))
            deep = p / 2 + (0.25 if p <= 5 else 0.5)
            to = 1 / 25.4 if self.inch else 1.0
            return p * to, lead * to, (d - p / 2) * to, deep * to
        if m := re.match(r"M([\d.]+)x([\d.]+)", name):
            d, p = map(float, m.groups())
            to = 1 / 25.4 if self.inch else 1.0
            return p * to, p * to, (d - 0.649519 * p) * to, 0.613434 * p * to
        to = 1.0 if self.inch else 25.4
        if m := re.match(rf"({SIZE})-([\d.]+)P-([\d.]+)L", name):
            p, lead, d = float(m.group(2)), float(m.group(3)), value(m.group(1))
        else:
            m = re.match(rf"({SIZE})-({SIZE})", name)
            d, p = value(m.group(1)), 1 / value(m.group(2))
            lead = p
        acme = "ACME" in name
        deep = (p / 2 + (0.010 if p >= 0.1 - 1e-9 else 0.005)) if acme else 0.613434 * p
        return p * to, lead * to, (d - (p / 2 if acme else 0.649519 * p)) * to, deep * to


def gauge_missing(c, count, low, high, reach, borrow):
    kinds = ("caliper", "depth micrometer")
    top = max(float(b) for kind, _, b in c.shop["ranges"] if kind.strip() in kinds) * c.to_part()
    long = [c.whole()[1]]
    for f in c.part.features:
        at = c.part.place(f.get("to")) if f.get("to") and f.get("to") != "end" else None
        if at and (f.kind not in ("turn", "thread", "relief", "taper", "knurl") or f.end < c.overall - 1e-9):
            long.append(c.within(f.get("to"), at)[1])
    beyond = sorted(v for v in long if v > top + 1e-9)
    c.exactly("how many", count or "1", len(beyond))
    c.near("the shortest", low, beyond[0])
    c.near("the longest", high or low, beyond[-1])
    c.near("reach", reach, top)
    c.near("to borrow", borrow, beyond[-1])
    c.compared(smallest=beyond[0], largest=beyond[-1], reach=top)


def held(c, told, half, wide):
    own = c.wide(c.feature())
    c.near("band", told, own)
    c.near("holds", half, c.can_hold("diameter"))
    c.near("twice that", wide, 2 * c.can_hold("diameter"))
    c.compared(band=own, lathe_holds=2 * c.can_hold("diameter"))


def held_by_grade(c, told, grade, most, wide):
    own = c.wide(c.feature())
    to = 25.4 if c.inch else 1.0
    mm = c.part.size(c.feature().main) * to
    row = next(r for top, r in sorted(IT.items()) if mm <= top)
    um = own * to * 1000
    c.near("band", told, own)
    # About: the nearest.
    c.exactly("grade", grade, min(enumerate(row, 5), key=lambda g: abs(math.log(um / g[1])))[0])
    c.exactly("coarsest that wants care", most, 7)
    c.near("its band", wide, row[2] / 1000 / to)
    c.compared(band=own, grade_band=row[2] / 1000 / to)


def kept(c, told):
    c.near("kept", told, c.part.bar)
    c.compared(kept=c.part.bar, turned_sections=float(len(c.part.sections) - 1))


def frame(c, told):
    low, high = c.whole()
    c.near("overall", told, c.overall)
    c.compared(overall=c.overall, overall_band=high - low)


def play(c, low, high, most, shim):
    """Shoulder to the groove's loaded wall, less the bearing and the ring, all at their worst."""
    groove, seat = c.feature(), c.section(1)
    at_end = groove.get("from").endswith("end") if " from " in groove.get("from") else c.size(c.neighbour(seat, False) or seat) <= c.size(seat)
    shoulder = seat.end if at_end else seat.start
    if c.neighbour(seat, True) is None or not at_end:
        shoulder = seat.start
    wall = c.within(groove.get("from").split(" from ")[0], c.part.size(groove.get("from")))
    wide = c.within(groove.get("wide"), c.part.size(groove.get("wide")))
    own = groove.get("from")
    if " from " in own:
        room = (-wall[1], -wall[0]) if c.part.size(own) < 0 else (wall[0] + wide[0], wall[1] + wide[1])
    else:
        of = next(f for f in c.part.sections if abs(f.end - shoulder) < 1e-9).get("to")
        stands = c.within(of, shoulder)
        room = (wall[0] + wide[0] - stands[1], wall[1] + wide[1] - stands[0])
    written = c.carried(seat, "wide")
    size = c.part.size(written)
    # A bearing's width: 0.12 mm under (ISO 492, normal class).
    bearing = c.within(written, size) if re.search(r"[±+]", written) else (size - 0.12 / (25.4 if c.inch else 1), size)
    ring = c.within(groove.get("ring"), c.part.size(groove.get("ring")))
    worked = (room[0] - bearing[1] - ring[1], room[1] - bearing[0] - ring[0])
    c.near("least play", low, worked[0])
    c.near("most play", high, worked[1])
    c.near("let pass", most, c.pick(0.010, 0.25))
    c.near("shim", shim, worked[1])
    c.compared(play_min=worked[0], play_max=worked[1], most=c.pick(0.010, 0.25), room_max=room[1], needed_min=bearing[0] + ring[0])


def asked_of(c):
    """Middle and half of every length that is written with limits."""
    for f in c.part.features:
        for key in ("to", "from"):
            if f.get(key) and re.search(r"[±+]|\.\.", f.get(key)):
                low, high = c.within(f.get(key).split(" from ")[0], abs(c.part.size(f.get(key))))
                if c.part.size(f.get(key)) < 0:
                    low, high = (-v for v in c.within(f.get(key).split(" from ")[0], c.part.size(f.get(key))))
                yield (low + high) / 2, abs(high - low) / 2
    for m in re.finditer(rf"is:\s*({SIZE})\s*±\s*({SIZE})", c.text):
        yield value(m.group(1)), value(m.group(2))


def coarse(c, start, end, middle, half, why, gives):
    """In one holding each cut is as good as the lathe holds lengths, the datum face itself counting for nothing; from both ends the part is turned over once."""
    near = min(asked_of(c), key=lambda a: abs(a[0] - float(middle)) + abs(a[1] - float(half)))
    c.near("asked", middle, near[0])
    c.near("asked within", half, near[1])
    one, over, datum = c.can_hold("length"), c.can_hold("turned end for end"), start == "datum face"
    worked = (one if datum else 2 * one) if "one holding" in why else over + (0.0 if datum else one)
    c.near("gives", gives, worked)
    c.compared(asked=near[1], gives=worked)
    for place in (start, end):
        if re.fullmatch(r"[\d.]+", place):
            stops = [v for f in c.part.sections for v in (f.start, f.end)] + [v for f in c.part.features if f.start is not None and f.get("wide") for v in (f.start, f.start + c.part.size(f.get("wide")))]
            c.near("face", place, min(stops, key=lambda v: abs(v - float(place))))


def reach(c, deep, bar, out, times):
    f = c.feature()
    worked = c.overall if f.get("end") == "through" else c.part.size(f.get("depth"))
    own = c.shops(re.search(r"tool: boring, diameter: ([\d./]+)", c.shop_text).group(1))
    for what, told, v in (("deep", deep, worked), ("bar", bar, own), ("let hang out", out, 4 * own), ("diameters", times, 4)):
        c.near(what, told, v)
    c.compared(deep=worked, bar=own)


def helix(c, name, told, most, leading, trailing):
    _, lead, pd, _ = c.pitch(name)
    angle = math.degrees(math.atan(lead / math.pi / pd))
    c.near("lead angle", told, angle)
    c.exactly("let pass", most, 4)
    c.exactly("leading side", leading, math.ceil(angle + 3))
    c.exactly("trailing side", trailing, math.floor(angle - 3))
    c.compared(lead_angle_deg=angle, limit_deg=4.0)


def wires(c, name):
    """Least, greatest and best wire; to a thousandth of a millimetre of a metric thread, to .0001 in of an inch one, as they are bought."""
    p = c.pitch(name)[0]
    low, high, best = {"A": (0.4873, 0.6500, 0.516450), "T": (0.4884, 0.6516, 0.517638)}.get("A" if "ACME" in name else name[0], (0.56, 0.90, 0.577350))
    metric = name.startswith(("M", "T"))
    to = (25.4 if c.inch else 1.0) if metric else (1.0 if c.inch else 1 / 25.4)
    return [round(v * p * to, 3 if metric else 4) / to for v in (low, high, best)]


def wire(c, name, nearest, low, high, best, again):
    least, most, right = wires(c, name)
    own = min((float(w) * c.to_part() for w in c.shop["wires"]), key=lambda w: abs(w - right))
    for what, told, v in (("nearest", nearest, own), ("smallest", low, least), ("largest", high, most), ("best", best, right), ("best", again, right)):
        c.near(what, told, v)
    c.compared(wire=own, smallest=least, largest=most)


def no_gauge(c, name, best, low, high):
    """M = E + W (1 + 1 / sin a') - P / 2 cot a over the best wire, of Acme and trapezoidal threads with tan a' = tan a cos l of the lead angle (NBS Handbook H28); the pitch
    diameter as the plan has it, which handbook tables hold."""
    t, p = c.op("thread")["thread"], c.pitch(name)[0]
    half = math.radians(14.5 if "ACME" in name else 15.0 if name.startswith("Tr") else 30.0)
    w = wires(c, name)[2]
    _, lead, pd, _ = c.pitch(name)
    leans = math.cos(math.atan(lead / math.pi / pd)) if half < math.radians(20.0) else 1.0
    over = {k: e + w * (1 + 1 / math.sin(math.atan(math.tan(half) * leans))) - p / 2 / math.tan(half) for k, e in t["pitch_diameter"].items()}
    c.near("best wire", best, w)
    for key, told in (("min", low), ("max", high)):
        c.near(key, told, over[key])
        c.worked.add(f"over_wires_{key}")
        if abs(c.f["compared"][f"over_wires_{key}"] - over[key]) > c.pick(1e-5, 2e-4):
            c.faults.append(f"compared over_wires_{key} {c.f['compared'][f'over_wires_{key}']}, worked {over[key]}")


def plunges(c, wide, tool, count, *places):
    f = c.feature()
    start = f.start
    cut = c.op("groove")
    # An O-ring's gland has its width from its size: as the plan has it (figures_recipes.py).
    written = f.get("wide") or str(abs(cut["span"]["to"] - cut["span"]["from"]))
    worked = f.end - f.start if f.kind == "relief" else c.part.size(written)
    deep = (cut["from_diameter"] - cut["to_diameter"]) / 2
    drawer = re.findall(r"tool: grooving, width: ([\d./]+)(?:, reach: ([\d./]+))?", c.shop_text)
    fits = [w for w, r in ((c.shops(w), c.shops(r) if r else math.inf) for w, r in drawer) if w <= worked + 1e-9 and r >= deep - 1e-9]
    own = max(fits)
    n = math.ceil(worked / own - 1e-9)
    c.near("wide", wide, worked)
    foreign = re.search(r"the tool [\d.]+ (?:in|mm)", c.f["message"])
    c.near("tool", tool, own * (25.4 if c.inch else 1 / 25.4) if foreign else own)
    c.exactly("plunges", count, n)
    edges = [start + (worked - own) * i / (n - 1) for i in range(n)]
    told = [p for p in places if p]
    for at, v in zip(told, edges if len(told) == n else (edges[0], edges[-1])):
        c.near("edge", at, v)
    c.compared(width=worked, tool=own, plunges=float(n))


def too_deep(c, least, below, name, root, most, make, tolerance):
    low = c.part.limits(c.feature().main)[0]
    i = c.part.sections.index(c.section())
    p = c.pitch(name)[0]
    if name in E0:
        # The root at the small end, screwed a turn further in or out.
        worked = E0[name] - 0.8 * p - p / 16
    else:
        threads = [o["thread"] for o in c.ops() if "thread" in o and o["thread"]["designation"] == name]
        worked = Give(c.plan, c.shop, c.part.bar).root({"thread": threads[0]})
    let = max(c.pick(0.030, 0.8), 0.35 * p)
    for what, told, v in (("least", least, low), ("below", below, worked - low), ("root", root, worked), ("let pass", most, let)):
        c.near(what, told, v)
    step = c.pick(0.005, 0.1)
    c.near("make it", make, math.floor(worked / step + 1e-9) * step)
    c.exactly("its limits", tolerance, c.pick(0.010, 0.20))
    c.compared(below_the_root=worked - low, most=let)
    if not any(s.kind == "thread" for s in (c.part.sections[i - 1], c.part.sections[min(i + 1, len(c.part.sections) - 1)])):
        c.faults.append("no thread stands beside this relief")


def chamfer(c, name, told, deep, make, long, pitches):
    p, _, _, depth = c.pitch(name)
    f = c.section()
    for x in c.part.features:
        if x.kind == "chamfer" and (x.get("end") in ("both", "datum" if f.start == 0 else "far") and (f.start == 0 or f.end == c.overall) or x.start is not None and f.start - 1e-9 <= x.start <= f.end + 1e-9):
            leg, angle = (value(n) for n in re.match(rf"({SIZE}) x ({SIZE})", x.main).groups())
            worked = leg * math.tan(math.radians(angle))
    c.near("chamfer", told, worked)
    # The least up, the most down, so that what is told keeps both.
    up, down = (10.0 ** -len(n.split(".")[1]) for n in (make, long))
    for what, n, v in (("depth", deep, depth), ("make it", make, math.ceil(depth / up - 1e-6) * up), ("long", long, math.floor(1.5 * p / down + 1e-6) * down), ("pitches", pitches, 1.5)):
        c.near(what, n, v)
    c.compared(chamfer=worked, wanted=depth, pitches=leg / p)


def knurl(c, told, low, high, teeth, blank):
    """Blank, teeth and growth as the plan has them, which figures_check.py works again."""
    k, f = c.op("knurl")["knurl"], c.feature()
    lim = c.part.limits(f.get("diameter"))
    for what, n, v in (("comes out at", told, k["expected"]), ("from", low, lim[0]), ("to", high, lim[1]), ("blank", blank, k["blank"])):
        c.near(what, n, v)
    c.exactly("teeth", teeth, k["teeth"])
    c.compared(expected=k["expected"], max=lim[1])


def corner(c, at, again):
    f = c.section()
    shoulders = [(f.start, c.neighbour(f, False), True), (f.end, c.neighbour(f, True), False)]
    place, beside, at_end = next(s for s in shoulders if abs(s[0] - float(at)) < 0.006 and s[1] is not None)
    c.near("at", at, place)
    c.near("at", again, place)
    if beside.kind == "taper":
        # A taper has a size at either end.
        rate = [float(n) for n in beside.main.split(":")] if ":" in beside.main else None
        small = c.part.size(beside.get("large")) - (beside.end - beside.start) * rate[0] / rate[1]
        size = small if at_end else c.part.size(beside.get("large"))
    elif beside.kind == "knurl":
        size = c.part.limits(beside.get("diameter"))[0]
    else:
        size = c.limits(beside)[0]
    c.compared(seat=c.limits(f)[1], shoulder=size)


def lead(c, seat, at):
    f = c.section()
    edges = [f.start, f.end]
    place = min(edges, key=lambda v: abs(v - float(at)))
    c.near("seat", seat, c.limits(f)[1])
    c.near("edge", at, place)
    c.compared(seat=c.limits(f)[1], edge=place)


def short(c, name, told, wanted, diameters, longer):
    f = c.section()
    long = f.end - f.start
    if f.get("run-out"):
        long -= c.part.size(f.get("run-out"))
    ends = [x for x in c.part.features if x.kind == "chamfer" and x.get("end") in ("both", "datum" if f.start == 0 else "far") and (f.start == 0 or f.end == c.overall)]
    long -= sum(value(re.match(rf"({SIZE})", x.main).group(1)) for x in ends)
    metric = re.match(r"(?:M|Tr ?)([\d.]+)", name)
    d = float(metric.group(1)) / (25.4 if c.inch else 1.0) if metric else value(re.match(rf"({SIZE})-", name).group(1)) * (1.0 if c.inch else 25.4)
    c.exactly("diameters", diameters, 0.8)
    for what, n, v in (("full thread", told, long), ("wanted", wanted, 0.8 * d), ("longer by", longer, 0.8 * d - long)):
        c.near(what, n, v)
    c.compared(full_thread=long, wanted=0.8 * d)


def long_seat(c, told, most, again):
    size = chord(c) if c.feature().main.startswith("Woodruff") else value(c.feature().main.split(" x ")[2])
    wide = c.part.size(c.carried(c.section(1), "wide"))
    for what, n, v in (("long", told, size), ("wide", most, wide), ("or shorter", again, wide)):
        c.near(what, n, v)
    c.worked.add("length")
    if abs(c.f["compared"]["length"] - size) > 1e-5:
        c.faults.append(f"compared length {c.f['compared']['length']}, worked {size}")
    c.compared(limit=wide)


def engaged(c, name, own, screw):
    lead = c.pitch(name)[1]
    pitch = float(c.shop["leadscrew"]) * (1.0 if c.inch else 25.4)
    c.near("lead", own, lead)
    c.near("leadscrew", screw, pitch)
    c.compared(lead=lead, leadscrew=pitch)


def jaws(c, number, op, gap, most, wanted):
    # At the very jaws no gap is told.
    gap, most = gap or "0.0000", most or wanted
    setup = next(s for s in c.plan["setups"] if s["number"] == int(number))
    cut = next((o for o in setup["operations"] if o["number"] == int(op)), None)
    if cut is None:
        return c.faults.append(f"operation {op} is not in setup {number}")
    ends = cut["span"].values()
    worked = setup["grip"]["from"] - max(ends) if setup["works"] == "datum" else min(ends) - setup["grip"]["to"]
    c.near("before the jaws", gap, worked)
    c.near("room", most, c.pick(0.25, 6.0))
    c.compared(gap=worked, wanted=c.pick(0.25, 6.0))


def slender(c, name, long, size, diameters, most):
    # The longest section; of several the one told.
    most_long = max(f.end - f.start for f in c.part.sections)
    mains = [f for f in c.part.sections if f.end - f.start > most_long - 1e-9]
    drawn = lambda f: c.size(f) if f.kind == "turn" else value(re.search(SIZE, f.get("large") or f.get("diameter") or f.main).group(0))
    d = min((drawn(f) for f in mains), key=lambda v: abs(v - float(size)))
    outs = [s["stick_out"] for s in c.setup(name) if s["stick_out"]] if c.reply is c.plan else [c.overall - c.shops(str(j)) for j in map(float, c.shop["jaws"])]
    worked = c.overall if "between centers" in name else min(outs, key=lambda v: abs(v - float(long)))
    for what, n, v in (("between supports", long, worked), ("main diameter", size, d), ("diameters", diameters, worked / d)):
        c.near(what, n, v)
    c.exactly("let pass", most, 10)
    c.compared(between_supports=worked, diameter=d, diameters=worked / d)


def grip(c, name, told, size, most):
    s = c.setup(name)[0]["grip"]
    # Half of that is the least, a diameter is enough; 1/4 in is no longer an error, but for what is thrown over, 3/4 is always enough.
    d = s["diameter"]
    wanted = min(d, c.pick(0.75, 19.0)) if c.f["severity"] == "warning" else d / 2 if "thrown over" in name else min(d / 2, c.pick(0.25, 6.0))
    for what, n, v in (("grip", told, s["to"] - s["from"]), ("diameter", size, s["diameter"]), ("wanted", most, wanted)):
        c.near(what, n, v)
    c.compared(grip=s["to"] - s["from"], wanted=wanted)


def cross(c, told, size):
    hole, d = c.part.size(c.feature().main), c.size(c.section(1))
    c.near("hole", told, hole)
    c.near("diameter", size, d)
    if 3 * hole <= d:
        c.faults.append("the hole is no more than a third")
    c.compared(hole=hole, diameter=d)


def chord(c):
    """Length of a Woodruff seat: of the cutter at its depth; by its number, eighths across and 32nds thick; how deep it goes as the plan has it."""
    d = int(re.search(r"(\d+)\d\d$", c.feature().main).group(1)) / 8 * (1.0 if c.inch else 25.4)
    deep = c.op("mill")["keyseat"]["depth_from_top"]
    return 2 * math.sqrt((d / 2) ** 2 - (d / 2 - deep) ** 2)


def bow(c, told, size):
    f = c.feature()
    long = chord(c) if f.main.startswith("Woodruff") else value(f.main.split(" x ")[2])
    c.near("long", told, long)
    c.near("shaft", size, c.size(c.section(1)))
    c.worked.add("length")
    if abs(c.f["compared"]["length"] - long) > 1e-5:
        c.faults.append(f"compared length {c.f['compared']['length']}, worked {long}")
    c.compared(shaft=c.size(c.section(1)))


def clean_up(c, told, size, more, make):
    """1/32 in on cold drawn bar, 1/8 on hot rolled; of an eccentric what it sweeps, of a knurl its blank as the plan has it."""
    f = c.section()
    rolled = "hot rolled" in c.f["message"]
    wanted = c.pick(0.125 if rolled else 1 / 32, 3.0 if rolled else 0.8)
    own = c.op("knurl")["knurl"]["blank"] if f.kind == "knurl" else c.size(f)
    if "sweeps" in c.f["message"]:
        own = c.limits(f)[1] + 2 * c.part.size(f.get("offset"))
    for what, n, v in (("bar", told, c.part.bar), ("size", size, own), ("clean-up", more, wanted), ("make it", make, own + wanted)):
        c.near(what, n, v)
    c.compared(bar=c.part.bar, wanted=own + wanted)


def usual_key(c, wide, low, high, size, usual, tall):
    rows = KEYS_INCH if c.inch else KEYS_MM
    d, w = c.size(c.section(1)), value(c.feature().main.split(" x ")[0])
    i = next(i for i, r in enumerate(rows) if abs(r[1] - w) < 1e-9)
    right = next(r for r in rows if d <= r[0] + 1e-9)
    for what, n, v in (("wide", wide, w), ("from", low, rows[i - 1][0]), ("to", high, rows[i][0]), ("shaft", size, d), ("usual", usual, right[1]), ("high", tall, right[2])):
        c.near(what, n, v)
    c.compared(width=w, shaft=d, usual_from=rows[i - 1][0], usual_to=rows[i][0])


def clocking(c):
    if "keyseats" in c.f["compared"]:
        seats = [f for f in c.part.features if f.kind == "keyseat"]
        c.compared(keyseats=float(len(seats)), angles_stated=float(sum(bool(f.get("angle")) for f in seats)))


def breaks(c, low, high):
    f = c.feature()
    # A tapped hole is as wide as its drill, which handbook tables hold.
    d = c.op("drill")["to_diameter"] if f.kind == "tapped hole" else c.part.size(f.main)
    c.near("from", low, f.start - d / 2)
    c.near("to", high, f.start + d / 2)
    c.compared(hole_from=f.start - d / 2, hole_to=f.start + d / 2)


def land(c, told, deep, again):
    """From wall to wall of two grooves on one section; the deeper one's depth, of a relief under its smaller neighbour."""
    places, depths = [], []
    for n in (0, 1):
        f = c.feature(n)
        places += [f.start, f.end if f.kind == "relief" else f.start + c.part.size(f.get("wide"))]
    a, b, x, y = places
    worked = x - b if b <= x else a - y
    between = c.host((b + x) / 2 if b <= x else (a + y) / 2)
    for f in (c.feature(0), c.feature(1)):
        sides = [s for s in (c.neighbour(f, False), c.neighbour(f, True)) if s] if f.kind == "relief" else [between]
        beside = [value(re.match(rf"({SIZE})", s.main).group(1)) if s.kind == "thread" else c.size(s) for s in sides]
        depths.append((min(beside) - c.part.size(f.main)) / 2)
    own = max(depths)
    for what, n, v in (("land", told, worked), ("deep", deep, own), ("leave", again, own)):
        c.near(what, n, v)
    c.compared(land=worked, deep=own)


def wall(c, hole, told, least):
    """Between the bottom of the seat, as deep as the plan has it, and the largest hole."""
    f = c.feature()
    host = c.host(f.start)
    deep = c.op("mill")["keyseat"]["depth_from_top"]
    bores = [c.part.size(b.main) + (c.part.general or 0.0) for b in c.part.inside if b.kind == "bore"]
    bore = min(bores, key=lambda v: abs(v - float(hole)))
    wide = int(f.main[-2:]) / 32 * (1.0 if c.inch else 25.4) if f.main.startswith("Woodruff") else value(f.main.split(" x ")[0])
    worked = c.size(host) / 2 - deep - bore / 2
    for what, n, v in (("hole", hole, bore), ("wall", told, worked), ("least", least, max(wide / 2, c.pick(0.060, 1.5)))):
        c.near(what, n, v)
    c.worked.add("wall")
    if abs(c.f["compared"]["wall"] - worked) > 1e-5:
        c.faults.append(f"compared wall {c.f['compared']['wall']}, worked {worked}")
    c.compared(least=max(wide / 2, c.pick(0.060, 1.5)))


def other_unit(c, written, other, rounded, again):
    to = 1 / 25.4 if c.inch else 25.4
    c.near("in the other unit", rounded, float(other) * to)
    c.exactly("again", again, float(other))
    if not re.search(rf"(?<![\d.]){re.escape(written)}(?!\d)", c.text):
        c.faults.append(f"{written} stands nowhere in the description")
    if abs(float(written) - float(other) * to) > 0.51 * 10.0 ** -len(written.split(".")[1]):
        c.faults.append(f"{written} is not {other} rounded")
    c.compared(written=float(written), in_the_other_unit=float(other) * to)


def fraction(c, written, near, again, decimal, limits, make, exact):
    v = value(near)
    wide = c.wide(c.feature())
    for what, n in (("it is", again), ("make it", make)):
        if n != near:
            c.faults.append(f"{what} {n}, and {near}")
    for what, n, w in (("decimal", decimal, v), ("make it", exact, v), ("limits", limits, wide)):
        c.near(what, n, w)
    if not re.search(rf"(?<![\d.]){re.escape(written)}(?!\d)", c.text) or abs(float(written) - v) > 0.51 * 10.0 ** -len(written.split(".")[1]):
        c.faults.append(f"{written} is not {near} rounded, as written")
    c.compared(written=float(written), fraction=v, band=wide)


def left_start(c, name, root, beside):
    f = c.section()
    p = c.pitch(name)[0]
    t = c.op("thread")["thread"]
    worked = Give(c.plan, c.shop, c.part.bar).root({"thread": {**t, "pitch": p}})
    sides = [s for s in (c.neighbour(f, False), c.neighbour(f, True)) if s]
    tall = min((c.limits(s)[1] for s in sides if s.kind in ("turn", "relief")), key=lambda v: abs(v - float(beside)), default=None)
    c.near("root", root, worked)
    c.near("beside", beside, tall)
    c.worked.add("root")
    if abs(c.f["compared"]["root"] - worked) > c.pick(2e-5, 5e-4):
        c.faults.append(f"compared root {c.f['compared']['root']}, worked {worked}")
    c.compared(beside=tall)


def not_cuttable(c, name, told, nearest):
    p, lead, _, _ = c.pitch(name)
    to = 1.0 if c.inch else 25.4
    has = min((float(l) * to for l in c.shop["threads"]), key=lambda v: abs(v - lead))
    c.near("lead", told, lead)
    c.near("nearest", nearest, has)
    c.compared(lead=lead, nearest=has)


def overhang(c, name, out, size, times):
    s = c.setup(name)[0]
    c.near("out of the jaws", out, s["stick_out"])
    # The bar's, or a section's on it: one that is turned in this plan.
    sizes = [s["grip"]["diameter"]] + [o["to_diameter"] for o in c.ops() if o["to_diameter"] and not o["inside"]]
    own = min(sizes, key=lambda v: abs(v - float(size)))
    c.near("diameter", size, own)
    c.exactly("times", times, 3)
    c.compared(stick_out=s["stick_out"], most=3 * own)


def mouth(c, name, told, end, size, share, half, again):
    f = c.part.sections[0 if end == "datum" else -1]
    d = c.size(f) if f.kind == "turn" else value(re.match(rf"({SIZE})", f.main).group(1))
    for what, n, v in (("mouth", told, MOUTH[name]), ("end", size, d), ("limit", half, d / 2), ("or less", again, d / 2)):
        c.near(what, n, v)
    c.exactly("share", share, 0.5)
    c.compared(mouth=MOUTH[name], limit=d / 2)


def from_top(c, top, side, across, differ):
    f = c.feature()
    w = value(f.main.split(" x ")[0])
    s, t = c.size(c.host(f.start)), SHAFT[w]
    lost = (s - math.sqrt(s * s - w * w)) / 2
    for what, n, v in (("from the top", top, t), ("at the side", side, t - lost), ("across", across, s - t), ("differ", differ, lost)):
        c.near(what, n, v)
    c.compared(from_top=t, at_side=t - lost, across_bottom=s - t, difference=lost)


def deflects(c, told, share, wide, specific):
    g = Give(c.plan, c.shop, c.part.bar)
    op = next(o for o in c.ops() if o["feature"] == c.f["features"][0] and o["barrel"])
    setup, op, work = g.stood()[op["number"]]
    eased = op["depth_of_cut"] * g.mm if op["lighter"] else None
    error, force, depth, _ = g.of(setup, op, work, eased)
    error, kc = error / g.mm, force / 0.4 / depth / g.feed
    for what, n, v in (("gives way", told, error), ("of its band", share, error / band(op)), ("band", wide, band(op)), ("specific force", specific, kc)):
        c.near(what, n, v)
    c.worked |= {"deflection_on_diameter", "force_newtons", "specific_force"}
    for key, v in (("deflection_on_diameter", error), ("force_newtons", force), ("specific_force", kc)):
        if abs(c.f["compared"][key] - v) > 1e-3 * v:
            c.faults.append(f"compared {key} {c.f['compared'][key]}, worked {v}")
    c.compared(band=band(op))


def set_over(c, told, whole, travel):
    f = c.section()
    a, b = (float(n) for n in f.main.split(":"))
    worked = c.overall * a / b / 2
    c.near("set over", told, worked)
    c.near("whole", whole, c.overall)
    c.near("travel", travel, c.shops(str(float(c.shop["tailstock travel"]))))
    c.compared(set_over=worked, travel=c.shops(str(float(c.shop["tailstock travel"]))))


def width(c, told, pitches, name, wanted, most, again):
    """Two and a half pitches, three where a left-hand thread starts."""
    f, p = c.section(), c.pitch(name)[0]
    asked = 3.0 if name.endswith("LH") else 2.5
    up = 10.0 ** -len(again.split(".")[1])
    for what, n, v in (("wide", told, f.end - f.start), ("pitches", pitches, (f.end - f.start) / p), ("wanted", wanted, asked * p), ("make it", again, math.ceil(asked * p / up - 1e-6) * up)):
        c.near(what, n, v)
    c.exactly("pitches wanted", most, asked)
    c.compared(width=f.end - f.start, wanted=asked * p)


def place(c, at, *fixed):
    c.exactly("place", at, c.part.size(c.feature().get("from")))
    for n in fixed:
        c.exactly("the example", n, 0.1)


def swept(c, f, beside):
    """Twice the throw and the neighbour's largest diameter, about the part's axis; its own where it is thrown as far the same way."""
    fellow = beside.get("offset") and c.part.size(beside.get("offset")) == c.part.size(f.get("offset")) and beside.get("angle") == f.get("angle")
    return c.part.most(beside.main) + (0.0 if fellow else 2 * c.part.size(f.get("offset")))


def walls(c, told, reach, wide):
    """The tool reaches in by half of what the larger circle has over the eccentric's least diameter: told exactly, or up to a digit that is printed."""
    f = c.section()
    least = c.part.limits(f.main)
    least = least[0] if least else 2 * c.part.size(f.main) - c.part.most(f.main)
    circle = max(swept(c, f, c.neighbour(f, end)) for end in (False, True))
    deep = (circle - least) / 2
    c.near("sweeps", told, circle)
    c.near("width", wide, f.end - f.start)
    up = c.pick(0.001, 0.01)
    printed = [deep, math.ceil(deep / up - 1e-6) * up]
    c.near("reach", reach, min(printed, key=lambda v: abs(v - float(reach))))
    c.compared(sweeps=circle, wide=f.end - f.start, reach=min(printed, key=lambda v: abs(v - c.f["compared"]["reach"])))


def tool(c, words, listing):
    """Of a threading tool the angle of its thread; else each number is one of the description, or a diameter of the plan."""
    angle = lambda name: 29 if "ACME" in name else 30 if name.startswith("Tr") else 60
    sizes = [o["to_diameter"] for o in c.ops() if o["to_diameter"]] if "setups" in c.plan else []
    sizes += [value(n) for n in re.findall(SIZE, c.text)]
    # A drill before a boring bar: a 64th over one that is listed, up to the next 64th.
    bars = [value(n) for n in re.findall(r"tool: boring, diameter: ([\d./]+)", c.shop_text)]
    sizes += [math.ceil((b * k + 1 / 64) * 64 - 1e-9) / 64 for b in bars for k in (1.0, 1 / 25.4)]
    # The usual drill of a metric thread: its diameter less its pitch, a coarse one's as M8 is written for M8x1.25 (ISO 261, from memory).
    for d, pitch in re.findall(r"\bM([\d.]+)(?:x([\d.]+))?", c.feature().main if c.f["features"] else ""):
        sizes.append(float(d) - float(pitch or {"6": 1, "8": 1.25, "10": 1.5, "12": 1.75}[d]))
    # Of 1/4-20 the usual drill is No. 7, .201 in (ASME B94.11M, from memory).
    sizes += [7, 0.201] if c.f["features"] and c.feature().main.startswith("1/4-20") else []
    # Before a bore a fractional drill, a 64th to an eighth under it.
    if c.f["features"] and c.feature().kind == "bore":
        bore = c.part.size(c.feature().main) * (1.0 if c.inch else 1 / 25.4)
        sizes += [k / 64 for k in range(1, 193) if bore - 1 / 8 <= k / 64 <= bore - 1 / 64] if c.inch else []
    for text in (words, listing):
        for n, degrees in re.findall(rf"({SIZE})(°?)", text):
            if degrees:
                c.exactly("angle", n, angle(c.feature().main))
            elif not any(abs(value(n) - v * to) < 1e-6 for v in sizes for to in (1.0, 25.4, 1 / 25.4)):
                c.faults.append(f"{n} stands nowhere in the description, and is no diameter of the plan")


def lead_drill(c, told):
    """A third of the hole, of one over 5/8 in or 16 mm two thirds too, to 1/32 in or half a millimetre (common practice, no source)."""
    size, step = c.part.size(c.feature().main), c.pick(1 / 32, 0.5)
    ways = [math.floor(size * share / step + 0.5) * step for share in (1 / 3, 2 / 3)][:2 if size > c.pick(0.625, 16.0) else 1]
    worked = min(ways, key=lambda v: abs(v - float(told)))
    if abs(worked - float(told)) > 1e-9:
        c.faults.append(f"drilled {told} first, worked {ways}")
    c.compared(drill=worked)


def stout_bar(c, hole, bar):
    """The largest drill listed that leaves the bore something, and the least boring bar listed."""
    own = lambda kind: [c.shops(n) for n in re.findall(rf"tool: {kind}, diameter: ({SIZE})", c.shop_text)]
    fits = [d for d in own("drill") if d < c.part.size(c.feature().main)]
    # Where none is listed that is small enough, the one that the plan drills with.
    fits = fits or [o["to_diameter"] for o in c.ops() if o["verb"] == "drill" and o["to_diameter"]] if "setups" in c.plan else fits
    drilled = max(fits, default=float(hole))
    c.near("hole", hole, drilled)
    c.near("bar", bar, min(own("boring")))
    c.compared(hole=drilled, bar=min(own("boring")))


def tool_missing(c, words, listing, first, hole, bar):
    if words:
        tool(c, words, listing)
    elif first:
        lead_drill(c, first)
    elif hole:
        stout_bar(c, hole, bar)
    else:
        c.compared(tools=0.0)


# These are in cases of their pages too (figures_pages.py).
IN_PAGES = {
    "eccentric-walls": (rf".* lies between walls: turned about its axis, .* sweeps {N}, so the tool must reach in {N} over a width of {N} \| .*", walls),
    "tool-missing": (rf"(?:.*? needs an? (.*), which the shop file does not list \| .*: `- {{(tool: .*)}}`|.* is drilled {N} first, .* \| .*"
                     rf"|.* is bored from a hole of {N}, and the smallest boring bar listed is {N}: .*|(?:no shop file|the shop file lists no tools).*)", tool_missing),
}
CHECKS = {
    **IN_PAGES,
    "gauge-missing": (rf"no instrument of the shop file measures (?:a length|(\d+) lengths) of {N}(?: to {N})?: the largest for lengths goes to {N} \| .* reaches {N}, .*", gauge_missing),
    "held-by-turning": (rf".* has a band of {N}, (?:and by the shop file this lathe holds a diameter to ±{N}, a band of {N}|about IT(\d+), within IT(\d+) \({N}\): .*) \| .*",
                        lambda c, told, half, wide, *grade: held_by_grade(c, told, *grade) if half is None else held(c, told, half, wide)),
    "stock-kept-runout": (rf".* keeps the bar's surface, {N}: .*", kept),
    "frame-change": (rf"lengths from the datum end on .* \| Measure the overall once; .* to {N} less the measured length instead of (?:0)", frame),
    "play-negative": (rf"between shoulder, bearing and ring the play is {N} to {N}: more than {N} \| .* a shim of up to {N}", play),
    "method-too-coarse": (rf"no plan of these holdings holds (.*?) to (.*?), asked {N} ±{N}: (.*), and with the cuts as close as `can hold` says it comes out to ±{N} \| .*", coarse),
    "tool-reach": (rf"bore \w+ is {N} deep, and a boring bar of {N} is let hang out {N} \({N} times its diameter\) \| .*", reach),
    "thread-helix": (rf"the lead angle of (.*?) is {N}°, over {N}°: .* back by {N}° or more; .* by {N}° at most", helix),
    "thread-wire": (rf"the shop's nearest wire for (.*?) is {N}, outside {N} to {N}; the best is {N} \| Get wires of {N}, .*", wire),
    "thread-no-gauge": (rf"neither a ring(?: gauge nor a fitting is at hand for .*|, a mate nor wires are at hand for (.*) \| With wires of {N} it must read {N} to {N} \| .*)",
                        lambda c, name, *told: no_gauge(c, name, *told) if name else None),
    "groove-plunges": (rf"\w+ \w+ is {N} wide and the tool {N}(?: in| mm)?: (\d+) plunges, its edge nearer the datum end at {N}(?:, {N})?(?: and| to) {N} \| .*", plunges),
    "relief-too-deep": (rf"relief \w+ may be {N}, {N} below the root of (.*) \({N}\): .* by more than {N} \| Make it {N} \+0/-{N}: .*", too_deep),
    "thread-chamfer": (rf"the chamfer on (.*?) is {N}, shallower than the thread: {N} \| Make it {N} x 45° to {N} \({N} pitches\)", chamfer),
    "knurl-growth": (rf"knurl \w+ comes out at about {N} over the points, and the drawing asks {N} to {N} \| (\d+) teeth on a blank of {N} .*", knurl),
    "corner-unstated": (rf"the .* bears on the shoulder of .* at {N}, .* `at: {N}`", corner),
    "lead-chamfer": (rf"the .* goes onto .* \({N}\) over the edge at {N}, .* of 15° to 30°, .*", lead),
    "thread-short": (rf"(.*) has {N} of full thread, less than {N} \({N} diameters, a standard nut\) \| Make the thread {N} longer, .*", short),
    "keyseat-long": (rf"the keyseat is {N} long, more than {N} \(.*\) \| Make it {N} or shorter", long_seat),
    "thread-keep-engaged": (rf"(\S+) is a metric thread and .* leads of {N} and {N} never meet .*", engaged),
    "jaws-room": (rf"setup (\d+): the cut of operation (\d+) ends (?:{N} before the jaws, less than {N}|at the very jaws, {N} is wanted): .*", jaws),
    "slender": (rf"(.*): {N} between supports on a main diameter of {N} is {N} diameters, more than {N} \| .*", slender),
    "grip-short": (rf"(.*): the jaws grip {N} of a diameter of {N}, less than {N} \| .*", grip),
    "cross-hole-large": (rf"the cross hole is {N}, more than a third of .* \({N}\) \| .*", cross),
    "stock-bow": (rf"a keyseat {N} long on one side of cold drawn bar of {N} .*", bow),
    "center-too-big": (rf"the mouth of center hole (.*) is {N} on the (datum|far) end of {N}: more than {N} of it, {N} \| .* a mouth of {N} or less", mouth),
    "keyseat-depth-from": (rf"the depth of keyseat \w+ is {N} from the top of the round: {N} at the side, {N} across the bottom; top and side differ by {N} \| .*", from_top),
    "deflection": (rf"the work gives way under the last cut of .*: about {N} on the diameter, {N} of its band of {N} \(.*, {N} N/mm²\) \| .*", deflects),
    "taper-setover": (rf"turning taper \w+ by setting the tailstock over takes {N} over the whole {N}, more than its travel, {N} \| .*", set_over),
    "relief-width": (rf"relief \w+ is {N} wide, {N} pitches of (.*?): the tool wants {N} \({N} pitches(?: where a left-hand thread starts)?\) to stop in \| Make it at least {N} wide, .*", width),
    "stock-diameter": (rf"the bar is {N}, but .* (?:is|sweeps) {N} and wants {N} of clean-up .* \| Take a bar of {N} or larger, .*", clean_up),
    "keyseat-width": (rf"a key {N} wide is usual in shafts over {N}, up to {N}; .* is {N} \| Measure again; {N} x {N} is usual here", usual_key),
    "keyseat-clocking": (r"no angle is stated between .* `angle: (?:0)°` .*", clocking),
    "cross-hole-breaks": (rf"the cross hole reaches from {N} to {N} and breaks into .*", breaks),
    "land-thin": (rf"the land between .* is {N} wide, thinner than the groove is deep, {N} \| .* leave {N} or more between them", land),
    "keyseat-wall": (rf"between the bottom of keyseat \w+ and the hole of {N} inside it {N} is left: less than {N} \| .*", wall),
    "mixed-units": (rf"`([\d.]+)` is ([\d.]+) (?:mm|in) \({N}\) rounded \| Write the unit behind it, `([\d.]+) (?:mm|in)`, .*", other_unit),
    "near-fraction": (rf"([\d.]+) is ({SIZE}) rounded: ({SIZE}) is {N}, off by more than a tenth of the limits' width {N} \| Write ({SIZE}) or {N} if .*", fraction),
    "thread-left-start": (rf"(.*) is left-hand and nothing beside it lies below its root, {N}: the smallest is {N}, .*", left_start),
    "thread-not-cuttable": (rf"(.*) needs a (?:lead|pitch) of {N}(?: \(\d+ to the inch\))?, and neither gearbox .* \| The nearest the gearbox has is {N}: .*", not_cuttable),
    "overhang": (rf"(.*): the work stands {N} out of the jaws on a diameter of {N}, more than {N} times that, .*", overhang),
    "untoleranced": (rf"the place {N} has no limits, .* \(±{N}\), or `tolerances: {{lengths: ±{N}}}` .*", place),
}


def judge(finding, plan, own, shop, text):
    """Faults of one finding."""
    c = Finding(finding, plan, own, shop, text)
    pattern, work = CHECKS[finding["check"]]
    m = re.fullmatch(pattern, " | ".join([finding["message"], *finding["help"]]))
    if not m:
        return ["no way to work its numbers"]
    try:
        work(c, *m.groups())
    except (KeyError, TypeError, ValueError, IndexError, StopIteration, AttributeError, UnboundLocalError) as e:
        return [repr(e)]
    left = {k for k, v in finding["compared"].items() if isinstance(v, (int, float)) and not isinstance(v, bool)} - c.worked
    return c.faults + [f"compared {k} is not worked" for k in sorted(left)]


def spoilt(finding):
    """The finding with one number another, each in turn: the last digit of one in words, a digit's worth of one compared."""
    for key in ("message", "help"):
        said = finding[key] if key == "help" else [finding[key]]
        for i, text in enumerate(said):
            # Names of threads, metals and setups are no numbers.
            bare = re.sub(rf"{NAME}|center hole A [\d./]+|x 45°|\+0|instead of 0|15° to 30°", lambda m: "_" * len(m.group(0)), text)
            for m in re.finditer(r"(?<![\w.])\d*\.?\d+", bare):
                at = m.end() - 1
                bad = text[:at] + str((int(text[at]) + 3) % 10) + text[at + 1:]
                yield f"{key}: {bad}", {**finding, key: bad if key == "message" else said[:i] + [bad] + said[i + 1:]}
    for key, v in finding["compared"].items():
        if isinstance(v, (int, float)) and not isinstance(v, bool) and v:
            yield f"compared {key}", {**finding, "compared": {**finding["compared"], key: v * 1.01}}


def main():
    rows = {r["check"]: r for r in csv.DictReader(l for l in open(sys.argv[1], encoding="utf-8") if not l.startswith("#"))}
    faults, met, seen, asked = [], set(), {}, 0
    files = sys.argv[2:]
    for plan_file, check_file, shop_file in zip(files[::3], files[1::3], files[2::3]):
        plan, own = (json.load(open(f, encoding="utf-8")) for f in (plan_file, check_file))
        shop = {} if shop_file == "-" else {**figures_check.shop_of(shop_file), "path": shop_file}
        text = open(plan["file"], encoding="utf-8").read()
        for reply in (plan, own):
            for f in reply["findings"]:
                said = " ".join([f["message"], *f["help"]])
                met.add(f["check"])
                row = rows.get(f["check"])
                if row is None:
                    faults.append(f"not in the list: {f['check']}")
                elif row["met"] == "page":
                    faults.append(f"listed as of a page alone, and {plan['file']} has it: {f['check']}")
                elif row["again"] == "yes":
                    asked += 1
                    wrong = judge(f, plan, reply, shop, text)
                    faults += [f"{plan['file']}: {f['check']}: {f['message']}: {w}" for w in wrong]
                    for what, bad in spoilt(f) if not wrong and seen.get(f["check"], (0, 0, 0))[2] < 3 else ():
                        a, b, n = seen.setdefault(f["check"], (0, 0, 0))
                        found = bool(judge(bad, plan, reply, shop, text))
                        seen[f["check"]] = (a + found, b + 1, n)
                        if not found and "-v" in sys.argv:
                            print("unnoticed:", f["check"], what)
                    a, b, n = seen.setdefault(f["check"], (0, 0, 0))
                    seen[f["check"]] = (a, b, n + 1)
                elif re.search(r"\d", said) and row["by"] == "":
                    faults.append(f"{f['check']} is not worked again, and nothing says why")
    faults += [f"in the list, and in no reply: {k}" for k in sorted(set(rows) - met) if rows[k]["met"] == "drawn"]
    faults += [f"said to be worked again, and there is no way: {k}" for k, r in rows.items() if r["again"] == "yes" and r["met"] != "page" and k not in CHECKS]
    a, b = (sum(n[i] for n in seen.values()) for i in (0, 1))
    faults += [f"spoilt, and unnoticed: {k}: {x} of {y}" for k, (x, y, _) in seen.items() if y and x < y / 2]
    if a < 0.9 * b:
        faults.append(f"of spoilt numbers only {a} of {b} are noticed")
    for line in faults:
        print(line)
    print(f"{asked} findings of {len(seen)} checks worked again; {a} of {b} spoilt numbers noticed")
    return 1 if faults or len(seen) < 25 else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError) as e:
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
