#!/usr/bin/env python3
"""The numbers of findings that no part at hand has, worked again: those of the cases in the pages of the checks.

Usage: figures_pages.py FINDINGS.csv TURNWRIGHT PAGES FOLDER
Takes the cases that fire out of the pages (src/check), writes each as a description and a shop file into FOLDER, asks TURNWRIGHT for its findings, and works what PAGES has the sentences of
from description and shop file alone, as figures_findings.py does for whole parts; each number is spoilt in turn and must be noticed, nine of ten. Sentences of a check that are
written otherwise than here are counted, not judged. Exit 1 with a line for each fault, 2 when unreadable.

Sources: press and running fits .004 and .01 of the bore, necks .8, play and room: common practice, no source, as the checks' pages say; growth 11.3 per million and kelvin, E 207 GPa, 7850
kg/m3 of medium steel (Callister, tables B.1, B.2, B.6); first bending speed of a bar built in at one end, 3.516 / (2 pi) sqrt(E I / (m L4)) (Roark and Young); ISO 492 normal class: a bore of
18 to 30 mm is 0.010 mm under; ASME B1.1 limits of the threads named below (tests/reference has them from another printing).
"""
import csv
import glob
import math
import os
import re
import subprocess
import sys
import json

import figures_check
from figures_findings import IN_PAGES, N, Finding, spoilt
from figures_written import NUMBER as SIZE
from figures_written import value

BASE = {"part": "part: case\n", "units": "units: in\n", "material": "material: 1045 cold drawn\n", "stock": "stock: 1.375 x 4.125\n", "datum": "datum: left end\n",
        "overall": "overall: 4.000 ±0.010\n", "tolerances": "tolerances: {lengths: ±0.005, diameters: ±0.002}\n",
        "features": "features:\n  - turn: 1.000\n    to: 1.000\n  - turn: 1.250\n    to: 3.250\n  - turn: 1.000\n    to: 4.000\n"}
# Designation: major diameter, least and most; root at the least pitch diameter; basic pitch diameter; minor diameter of the nut.
MAJOR = {"5/8-18 UNF-2A": (0.6149, 0.6236)}
ROOT = {"5/8-18 UNF-2A": 0.5828 - 0.64952 / 18}
MINOR = {"1/4-20 UNC-2B": (0.196, 0.207), "No. 10-32 UNF-2B": (0.156, 0.164)}


def cases(folder):
    """Name, description, shop file and whether it is planned, of every case that fires."""
    for page in sorted(glob.glob(os.path.join(folder, "*", "*.md"))):
        text = open(page, encoding="utf-8").read()
        check = re.match(r"# (\S+)", text).group(1)
        if os.path.basename(os.path.dirname(page)) == "description":
            continue
        for n, (planned, body) in enumerate(re.findall(r"```yaml fires( planned)?:.*?\n(.*?)```", text, re.S)):
            body, _, shop = body.partition("--- # shop\n")
            without = re.findall(r"# without: (\w+)", body)
            keys, own, key = {}, [], None
            for line in re.sub(r"\s+#.*", "", re.sub(r"(?m)^#.*$", "", body)).splitlines():
                if not line.strip():
                    continue
                if m := re.match(r"([a-z][\w -]*):", line):
                    key = m.group(1)
                    keys[key] = line + "\n"
                elif key:
                    keys[key] += line + "\n"
                else:
                    own.append("  " + line)
            for k, v in keys.items():
                # A list may stand at its key's own depth.
                if re.search(r"(?m)^- ", v):
                    first, rest = v.split("\n", 1)
                    keys[k] = first + "\n" + re.sub(r"(?m)^(?=.)", "  ", rest)
            out = {**{k: v for k, v in BASE.items() if k not in without}, **keys}
            if own:
                out["features"] += "\n".join(own) + "\n"
            if shop:
                out["lathe"] = "lathe: shop.yaml\n"
            features = out.pop("features", "")
            yield f"{check}-{n}", check, "".join(out.values()) + features, shop if not shop or "units:" in shop else "units: in\n" + shop, bool(planned)


class Case(Finding):
    """A finding of a case: no plan behind it."""

    def own(self, key):
        """A length of the shop file by its key."""
        return value(re.search(rf"^{key}:\s*({SIZE})", self.shop_text, re.M).group(1)) * self.to_part()

    def bar(self):
        """Across and long."""
        m = re.search(rf"^stock:\s*(?:tube|square|hexagon)?\s*({SIZE})\s*x\s*({SIZE})", self.text, re.M)
        return value(m.group(1)), value(m.group(2))

    def largest(self, f):
        if f.kind == "thread":
            return MAJOR[f.main][1]
        return self.limits(f)[1] + 2 * (self.part.size(f.get("offset")) if f.get("offset") else 0.0)

    def bore(self, f):
        """Least that the bore of what is carried may be: a bearing's is 10 um under."""
        size = self.part.size(self.carried(f, "bore"))
        return size - 0.010 / (25.4 if self.inch else 1.0) if self.carried(f, "part") == "bearing" else size

    def dims(self):
        """from, to, is and half of its band, of each drawn distance."""
        for m in re.finditer(rf"from:\s*({SIZE}),\s*to:\s*({SIZE}),\s*is:\s*({SIZE})(?:\s*±\s*({SIZE}))?", self.text):
            a, b, v, h = (value(n) if n else None for n in m.groups())
            yield a, b, v, h


def rounded(v, told, up=False):
    """To the digits told, a least up, a most down."""
    step = 10.0 ** -(len(told.split(".")[1]) if "." in told else 0)
    return (math.ceil(v / step - 1e-6) if up else math.floor(v / step + 1e-6)) * step


def several(c, *rows):
    for what, told, v in rows:
        c.near(what, told, v)


def bore_fit(c, side, seat, by, bore, room):
    f = c.section()
    low, high = c.limits(f)
    text = c.carried(f, "bore")
    own = c.part.size(text)
    if side == "least":
        several(c, ("seat", seat, low), ("larger by", by, low - own), ("bore", bore, own), ("press", room, 0.004 * own))
        c.compared(seat=low, bore=own, over=low - own, most=0.004 * own)
    else:
        several(c, ("seat", seat, high), ("smaller by", by, own - high), ("bore", bore, own), ("running", room, 0.01 * own))
        c.compared(seat=high, bore=own, under=own - high, most=0.01 * own)


def cannot_pass(c, bore, way, over, make):
    own, there = c.bore(c.section(0)), c.largest(c.section(1))
    several(c, ("bore", bore, own), ("in the way", way, there), ("too large", over, there - own), ("make it", make, rounded(own, make)))
    c.compared(bore=own, in_the_way=there)


def passes_seat(c, bore, way, make):
    own, there = c.bore(c.section(0)), c.largest(c.section(1))
    several(c, ("bore", bore, own), ("passed", way, there), ("make it", make, rounded(own, make)))
    c.compared(bore=own, passed=there)


def trapped(c, bore, one, other):
    own, a, b = c.bore(c.section(0)), c.largest(c.section(1)), c.largest(c.section(2))
    several(c, ("bore", bore, own), ("on one side", one, a), ("on the other", other, b))
    c.compared(bore=own, toward_datum_end=a, toward_far_end=b)


def disagrees(c, stated, others, apart):
    a, b, v, _ = next(c.dims(), (None,) * 4)
    if v is None:
        f = next(f for f in c.part.sections if f.get("long"))
        i = c.part.sections.index(f)
        a, b, v = c.part.sections[i - 1].end, c.part.size(f.get("to")), c.part.size(f.get("long"))
    several(c, ("stated", stated, v), ("by the others", others, b - a), ("apart", apart, abs(v - (b - a))))
    c.compared(stated=v, by_the_other_lengths=b - a, difference=abs(v - (b - a)))


def growth(c, band, warm, grows):
    f = c.section()
    long = c.part.size(f.get("long")) if f.get("long") else f.end
    own = f.get("long") or f.get("to")
    wide = 2 * value(re.search(rf"±({SIZE})", own).group(1))
    worked = long * 11.3e-6 * 17
    c.exactly("degrees", warm, round(17 * 1.8))
    several(c, ("band", band, wide), ("grows", grows, worked))
    c.compared(band=wide, growth=worked)


def implied(c, low, high, least, most):
    a, b, v, h = next(c.dims())
    wide = 2 * c.lengths(a)
    several(c, ("asked from", low, v - h), ("to", high, v + h), ("kept from", least, b - a - wide), ("to", most, b - a + wide))
    c.compared(stated_band=2 * h, implied_band=2 * wide)


def not_guaranteed(c, low, high, least, most, each, *rest):
    """Each of the two ends moves by its own limits; the root sum square of two alike is that by the root of two."""
    a, b, v, h = next(c.dims())
    t = c.lengths(a)
    several(c, ("asked from", low, v - h), ("to", high, v + h), ("kept from", least, b - a - 2 * t), ("to", most, b - a + 2 * t), ("hold each to", each, h / 2))
    if rest and rest[0]:
        several(c, ("one alone", rest[0], h - t), ("root sum square from", rest[1], v - t * math.sqrt(2)), ("to", rest[2], v + t * math.sqrt(2)))
    c.compared(stated_min=v - h, stated_max=v + h, worst_case_min=b - a - 2 * t, worst_case_max=b - a + 2 * t)


def measured(c, read, off, way, low, high, *more):
    m = re.search(rf"(?:diameter|overall|at):\s*({SIZE})\}}", c.text) or re.search(rf"at:\s*({SIZE})", c.text)
    v = value(m.group(1))
    if c.f["features"]:
        lim = c.limits(c.section())
    elif "overall:" in m.group(0):
        lim = c.whole()
    else:
        face = value(re.search(rf"face:\s*({SIZE})", c.text).group(1))
        own = next(f for f in c.part.sections if abs(f.end - face) < 1e-9)
        lim = c.within(own.get("to"), face)
        if told := re.match(rf"the face at {N} ", c.f["message"]):
            c.near("the face", told.group(1), face)
    worked = lim[0] - v if v < lim[0] else v - lim[1]
    if way != ("under" if v < lim[0] else "over"):
        c.faults.append(f"{way}, of {v} in {lim}")
    several(c, ("measures", read, v), ("off", off, worked), ("least", low, lim[0]), ("most", high, lim[1]))
    told = [n for n in more if n is not None]
    if len(told) == 1:
        c.near("still to come off", told[0], v - (lim[0] + lim[1]) / 2)
    elif told:
        several(c, ("the limit", told[0], lim[0] if v < lim[0] else lim[1]), ("may become", told[1], v))
    c.compared(measured=v, min=lim[0], max=lim[1])


def past_spindle(c, bar, behind, bore):
    """What lies behind the jaws: the bar less the part, its facing (1/32 in at either end) and 3/4 in of grip."""
    across, long = c.bar()
    worked = long - c.overall - 2 / 32 - 0.75
    several(c, ("bar", bar, across), ("behind", behind, worked), ("bore", bore, c.own("spindle bore")))
    c.compared(bar=across, behind=worked, spindle_bore=c.own("spindle bore"))


def whip(c, out, bends, size, wants, most):
    across, long = c.bar()
    d, l = across * 0.0254, (long - c.overall - 2 / 32 - 0.75 - 15.0)
    first = 3.516 * math.sqrt(207e9 * d * d / 16 / 7850 / (l * 0.0254) ** 4) * 30 / math.pi
    least = min(c.size(f) for f in c.part.sections)
    own = 90 * 12 / math.pi / least
    gears = [int(n) for n in re.findall(r"\d+", (re.search(r"^speeds: \[(.*)\]", c.shop_text, re.M) or [None, ""])[1])]
    speed = max((g for g in gears if g <= own), default=min(gears, default=own))
    c.near("hangs out", out, l)
    c.near("turning", size, least)
    c.near("wants", wants, speed)
    for what, told, v, key in (("bends at", bends, first, "first_bending_rpm"), ("safe", most, first / 2, "allowed_rpm")):
        c.worked.add(key)
        # The constant is printed as 3.516 or 3.52.
        if abs(float(told) - v) > 0.004 * v or abs(c.f["compared"][key] - float(told)) > 0.51:
            c.faults.append(f"{what} {told}, worked {v}")
    c.compared(hangs_out=l, wanted_rpm=float(speed))


def speed_range(c, what, size, wants, end, gear):
    d = float(size)
    sizes = [c.size(f) for f in c.part.sections if f.kind == "turn"] + [value(m) for m in re.findall(rf"thread: ({SIZE})-", c.text)]
    worked = 90 * 12 / math.pi / d * (0.25 if what == "threading" else 1.0)
    gears = [int(n) for n in re.findall(r"\d+", re.search(r"^speeds: \[(.*)\]", c.shop_text, re.M).group(1))]
    own = min(gears) if end == "slowest" else max(gears)
    c.near("diameter", size, min(sizes, key=lambda v: abs(v - d)))
    several(c, ("wants", wants, worked), ("gear", gear, own))
    c.compared(wanted_rpm=worked, gear_rpm=float(own))


def too_big(c, bar, corners, swing, over):
    # Over the corners of a square, rounded up to a micrometre.
    across = math.ceil(c.bar()[0] * math.sqrt(2.0) * 25400) / 25400 if corners else c.bar()[0]
    has = c.own("swing over cross slide" if over == "cross slide" else "swing")
    several(c, ("bar", bar, across), ("swings", swing, has))
    c.compared(bar=across, swing=has)


def sweeps(c, told, swing):
    """The largest section about the eccentric's axis."""
    worked = max(c.largest(f) for f in c.part.sections if not f.get("offset")) + 2 * c.part.size(c.section().get("offset"))
    several(c, ("sweeps", told, worked), ("swings", swing, c.own("swing")))
    c.compared(sweeps=worked, swing=c.own("swing"))


def too_long(c, takes, has):
    several(c, ("takes", takes, c.whole()[1] + 0.5), ("has", has, c.own("between centers")))
    c.compared(wanted=c.whole()[1] + 0.5, between_centers=c.own("between centers"))


def woodruff(f):
    n = re.search(r"Woodruff (\d+)", f.main).group(1)
    return int(n[:-2]) / 8, int(n[-2:]) / 32


def cutter_reach(c, told, distance, again):
    f = c.feature()
    d = woodruff(f)[0]
    side = c.section(1)
    worked = min(abs(f.start - side.start), abs(f.start - side.end))
    several(c, ("reaches", told, d / 2), ("stands", distance, worked), ("keep", again, d / 2))
    c.compared(reach=d / 2, distance=worked)


def flat_usable(c, wide, size, least):
    f, d = c.feature(), c.size(c.section(1))
    across = c.part.size(f.main)
    worked = math.sqrt(d * d - across * across)
    several(c, ("wide", wide, worked), ("on", size, d), ("least", least, across / 2))
    c.compared(wide=worked, least=across / 2)


def outside_seat(c, a, b, low, high, first, last):
    f, seat = c.feature(), c.section(1)
    long = value(f.main.split(" x ")[2])
    several(c, ("slot from", a, f.start), ("to", b, f.start + long), ("seat from", low, seat.start), ("to", high, seat.end),
            ("middle from", first, seat.start + long / 2), ("to", last, seat.end - long / 2))
    c.compared(slot_from=f.start, slot_to=f.start + long, seat_from=seat.start, seat_to=seat.end)


def coating(c, told, grows, *again):
    own = value(re.search(rf"coating:\s*({SIZE})", c.text).group(1))
    several(c, ("a side", told, own), ("diameters", grows, 2 * own))
    for n in again:
        if n:
            c.near("again", n, own)
    c.compared(coating=own, growth=2 * own)


def inspected(c, what, low, high):
    f = next(f for f in c.part.features if f.kind == what)
    lim = c.within(f.main, c.part.size(f.main))
    several(c, ("least", low, lim[0]), ("most", high, lim[1]))
    c.compared(min=lim[0], max=lim[1])


def inconsistent(c, falls, long, rate, makes, apart, again, large, small):
    f = c.section()
    a, b = (float(n) for n in f.main.split(":"))
    over, big = f.end - f.start, c.part.size(f.get("large"))
    own, ruled = big - c.part.size(f.get("small")), over * a / b
    for n in (rate, again):
        if n != f.main:
            c.faults.append(f"{n}, and {f.main} is drawn")
    several(c, ("falls", falls, own), ("over", long, over), ("makes", makes, ruled), ("apart", apart, abs(own - ruled)), ("large", large, big), ("small", small, big - ruled))
    c.compared(by_diameters=own, by_rate=ruled, difference=abs(own - ruled))


def fillet(c, told, corner, again):
    f = next(f for f in c.part.features if f.kind == "fillet")
    own = c.part.size(f.main)
    ring = c.part.size(c.carried(c.section(), "corner"))
    several(c, ("fillet", told, own), ("corner", corner, ring), ("smaller than", again, ring))
    c.compared(fillet=own, corner=ring)


def groove_deep(c, deep, tool, reach, times):
    f = c.feature()
    worked = (c.size(c.host(f.start)) - c.part.size(f.main)) / 2
    w, r = re.search(rf"tool: grooving, width: ({SIZE})(?:, reach: ({SIZE}))?", c.shop_text).groups()
    own = min(8 * value(w), value(r) if r else math.inf)
    several(c, ("deep", deep, worked), ("tool", tool, value(w)), ("reaches", reach, own), ("times", times, 8))
    c.compared(deep=worked, reach=own)


def groove_narrow(c, wide, tool, again):
    f = c.feature()
    most = f.end - f.start + c.lengths(f.start) * 2 if f.kind == "relief" and not f.get("long") else None
    if f.get("wide"):
        most = c.within(f.get("wide"), c.part.size(f.get("wide")))[1]
    elif f.get("long"):
        most = c.within(f.get("long"), c.part.size(f.get("long")))[1]
    least = min(value(w) for w in re.findall(rf"tool: grooving, width: ({SIZE})", c.shop_text))
    several(c, ("wide", wide, most), ("narrowest", tool, least), ("grind", again, rounded(most, again)))
    c.compared(widest=most, tool=least)


def neck(c, told, share, beside, most, make):
    f = c.feature()
    if f.kind == "relief":
        sides = [s for s in (c.neighbour(f, False), c.neighbour(f, True)) if s]
        own = min(ROOT.get(s.main) or c.size(s) for s in sides)
    else:
        own = c.size(c.host(f.start))
    d = c.part.size(f.main)
    several(c, ("neck", told, d), ("share", share, d / own), ("beside", beside, own), ("less than", most, 0.8 * own), ("make it", make, rounded(0.8 * own, make, True)))
    c.worked.add("beside")
    if abs(c.f["compared"]["beside"] - own) > 2e-5:
        c.faults.append(f"compared beside {c.f['compared']['beside']}, worked {own}")
    c.compared(neck=d)


def relief_corner(c, told, deep, again):
    f = c.section()
    sides = [s for s in (c.neighbour(f, False), c.neighbour(f, True)) if s]
    radius = c.part.size(f.get("corner"))
    # The largest that the relief may be, below the smallest that its neighbour may be.
    worked = min(c.limits(s)[0] - c.limits(f)[1] for s in sides) / 2
    several(c, ("radius", told, radius), ("deep", deep, worked), ("make it", again, worked))
    c.compared(radius=radius, deep=worked)


def relief_diameter(c, told, name, root, make):
    f = c.feature()
    most = c.part.limits(f.main)[1]
    several(c, ("largest", told, most), ("root", root, ROOT[name]), ("make it", make, math.floor((ROOT[name] - 0.0005) / 0.005) * 0.005))
    c.worked.add("root")
    if abs(c.f["compared"]["root"] - ROOT[name]) > 2e-5:
        c.faults.append(f"compared root {c.f['compared']['root']}, worked {ROOT[name]}")
    c.compared(largest=most)


def ring_wall(c, told, wide, put):
    f, seat = c.feature(), c.section(1)
    from_start = c.neighbour(seat, True) is None
    wall = f.start + c.part.size(f.get("wide")) - seat.start if from_start else seat.end - f.start
    own, ring = c.part.size(c.carried(seat, "wide")), c.part.size(f.get("ring"))
    several(c, ("wall", told, wall), ("wide", wide, own), ("put it", put, own + ring))
    c.compared(loaded_wall=wall, wide=own)


def shoulder(c, told, corner, times, make):
    """The least shoulder over the largest seat."""
    f = c.section()
    low, high = c.limits(c.neighbour(f, True) or c.neighbour(f, False))
    seat, r = c.limits(f)[1], c.part.size(c.carried(f, "corner"))
    several(c, ("high", told, (low - seat) / 2), ("corner", corner, r), ("times", times, 2), ("make it", make, seat + 4 * r))
    c.compared(height=(low - seat) / 2, wanted=2 * r)


def kept(c, low, high, least, most):
    lim = [value(n) for n in re.search(rf"turn: stock\s+({SIZE})\.\.({SIZE})", c.text).groups()] if ".." in c.section().main else None
    bar = c.bar()[0]
    several(c, ("bar from", least, c.limits_of_bar()[0]), ("to", most, bar))
    if lim:
        several(c, ("asked from", low, lim[0]), ("to", high, lim[1]))
    c.compared(bar_min=c.limits_of_bar()[0], bar_max=bar, **({"asked_min": lim[0], "asked_max": lim[1]} if lim else {}))


def stock_length(c, sawn, needs, whole, faces, parting, grip, again):
    long = c.bar()[1]
    own = [c.whole()[1], 2 / 32] + ([0.125, 0.75] if grip else [])
    several(c, ("sawn", sawn, long), ("needs", needs, sum(own)), ("overall", whole, own[0]), ("to face", faces, own[1]), ("saw it", again, sum(own)))
    if grip:
        several(c, ("to part off", parting, 0.125), ("to hold it by", grip, 0.75))
    c.compared(saw_length=long, wanted=sum(own))


def stock_long(c, sawn, part, away, again):
    """All but the facing of one end is faced away at the other."""
    long = c.bar()[1]
    several(c, ("sawn", sawn, long), ("part", part, c.overall), ("faced away", away, long - c.overall - 1 / 32), ("saw it", again, c.overall + 2 / 32))
    c.compared(saw_length=long, spare=long - c.overall - 2 / 32)


def scale(c, told, least):
    worked = (c.bar()[0] - c.size(c.section())) / 2
    several(c, ("a side", told, worked), ("least", least, 1 / 32))
    c.compared(a_side=worked, least=1 / 32)


def blank(c, told, name, low, high, make):
    own = value(re.search(rf"blank:\s*({SIZE})", c.text).group(1))
    a, b = MAJOR[name]
    several(c, ("least", low, a), ("most", high, b), ("turn it to", make, (a + b) / 2))
    lim = c.within(re.search(r"blank:\s*([^\n,}]*)", c.text).group(1), own) if re.search(r"blank:[^\n]*[±+]", c.text) else (own, own)
    if not any(abs(float(told) - v) < 6e-4 for v in lim):
        c.faults.append(f"blank {told}, worked {lim}")
    c.worked.add("blank")
    if abs(c.f["compared"]["blank"] - float(told)) > 1e-9:
        c.faults.append(f"compared blank {c.f['compared']['blank']}, told {told}")
    c.compared(major_min=a, major_max=b)


def index(c, name, starts, apart):
    p, lead, _, _ = c.pitch(name)
    c.exactly("starts", starts, round(lead / p))
    c.near("apart", apart, p)
    c.compared(starts=round(lead / p), pitch=p)


def lead_travel(c, name, takes, bed):
    f, p = c.section(), c.pitch(name)[0]
    several(c, ("takes", takes, f.end - f.start + 2 * p), ("has", bed, c.own("between centers")))
    c.compared(travel=f.end - f.start + 2 * p, bed=c.own("between centers"))


def runout(c, name, beside, pd, make, fade):
    """A relief under the root in steps of .005; two pitches to fade out, up to .010."""
    p, _, basic, _ = c.pitch(name)
    size = c.size(c.section(1))
    root = ROOT[name]
    several(c, ("beside", beside, size), ("make it", make, math.floor((root - 0.0005) / 0.005) * 0.005), ("fade out", fade, math.ceil(2 * p / 0.010 - 1e-9) * 0.010))
    # The largest pitch diameter: the basic one less the allowance, .0014 (ASME B1.1).
    c.near("pitch diameter", pd, basic - 0.0014)
    c.worked.add("pitch_diameter")
    if abs(c.f["compared"]["pitch_diameter"] - float(pd)) > 5.1e-5:
        c.faults.append("compared pitch diameter")
    c.compared(beside=size)


def runout_time(c, rpm, name, letter, wide, seconds, least):
    f = next(s for s in c.part.sections if s.letter == letter)
    gears = [int(n) for n in re.findall(r"\d+", re.search(r"^speeds: \[(.*)\]", c.shop_text, re.M).group(1))]
    lead = c.pitch(name)[1]
    worked = (f.end - f.start) / lead * 60 / min(gears)
    several(c, ("gear", rpm, min(gears)), ("wide", wide, f.end - f.start), ("least", least, 1.0))
    if abs(float(seconds) - worked) > 0.0051:
        c.faults.append(f"seconds {seconds}, worked {worked}")
    c.compared(seconds=worked, least_seconds=1.0, rpm=float(min(gears)))


# Number drills (ASME B94.11M, from memory).
NUMBERS = {7: 0.201, 21: 0.159}


def tap_drill(c, told, name, low, high, usual, size):
    c.near("the usual", size, NUMBERS.get(int(usual)))
    own = value(re.search(rf"drill:\s*({SIZE})", c.text).group(1))
    a, b = MINOR[name]
    several(c, ("drill", told, own), ("least", low, a), ("most", high, b))
    c.compared(drill=own, minor_min=a, minor_max=b)


def unknown(c, name, size, pitch):
    if m := re.match(r"M([\d.]+)x([\d.]+)", name):
        to = 1 / 25.4 if c.inch else 1.0
        d, p = float(m.group(1)) * to, float(m.group(2)) * to
    else:
        d, n = (value(v) for v in re.match(rf"({SIZE})-({SIZE})", name).groups())
        p = 1 / n
    several(c, ("diameter", size, d), ("pitch", pitch, p))
    c.compared(nominal=d, pitch=p)


PAGES = {
    **IN_PAGES,
    "bore-fit": (rf".* is at (least|most) {N}, {N} (?:larger|smaller) than the bore of .*, {N}: .* (?:takes|leaves) {N} \| .*", bore_fit),
    "cannot-pass": (rf"the .* \(bore (?:down to )?{N}.*\) cannot reach .* may be {N}, {N} too large \| Make .* {N} or less.*", cannot_pass),
    "passes-seat": (rf".* \(bore (?:down to )?{N}.*\) must be pushed over .*, which may be {N} \| .* down to {N} or less .*", passes_seat),
    "trapped": (rf"the .* \(bore {N}\) sits between .*?, {N}, and .*?, {N}: .*", trapped),
    "chain-disagrees": (rf"the .* is {N}, but the other lengths give {N}: {N} apart \| .*", disagrees),
    "heat-growth": (rf".* must be held within {N}, and (\d+) °F of warmth from the cut makes it grow {N} \| .*", growth),
    "implied-tighter": (rf"asked {N} to {N}, but the lengths already keep it between {N} and {N} \| .*", implied),
    "chain-not-guaranteed": (rf".*: asked {N} to {N}, but the lengths that make it only keep it between {N} and {N} \| Hold each of the 2 lengths that make it to ±{N}, or dimension this distance directly"
                             rf"(?: \| Or hold .* alone to ±{N} \| The root sum square, {N} to {N}, would fit, .*)?", not_guaranteed),
    "measured-out": (rf".* measures {N}, {N} (under|over) its limits {N} to {N}: .* \| (?:Scrap, unless the drawing's \w+ of {N} may become {N}: .*|{N} is still to come off .*)", measured),
    "bar-past-spindle": (rf"the bar is {N} and {N} of it lies behind the jaws, but the spindle bore is {N} \| .*", past_spindle),
    "bar-whip": (rf"{N} of bar hangs out .* begins to bend at {N} rpm; turning {N} wants {N} rpm, and more than {N} is not safe .*", whip),
    "speed-range": (rf"(threading|turning) .* on a diameter of {N} wants {N} rpm, and the lathe's (slowest|fastest) gear is {N} \| .*", speed_range),
    "too-big": (rf"(?:the bar is {N}( across corners)?, and the lathe swings {N} over the (cross slide|bed)|held for .*, the part sweeps {N}, and the lathe swings {N} over the bed) \| .*",
                lambda c, *t: sweeps(c, *t[4:]) if t[4] else too_big(c, *t[:4])),
    "too-long": (rf".*: the work and dog and centers take {N}, and the lathe has {N} between centers \| .*", too_long),
    "keyseat-cutter-reach": (rf"above the seat the cutter reaches {N} from its center, but .* stands {N} from it \| Keep the center {N} or more .*", cutter_reach),
    "flat-usable": (rf"the flats of .* come out {N} wide on .* \({N}\), under {N} \| .*", flat_usable),
    "keyseat-outside-seat": (rf"the slot runs from {N} to {N}, but .* only from {N} to {N}: .* \| Put its middle between {N} and {N}, .*", outside_seat),
    "coating-allowance": (rf"a coating of {N} a side makes every diameter grow by {N}, .* \| Write `coating: {N} a side, .*", coating),
    "not-inspected": (rf"the (?:radius|leg) of (fillet|chamfer) is held {N} to {N}, .*", inspected),
    "taper-inconsistent": (rf"taper \w+ falls {N} over {N}, but ([\d:]+) makes {N}: {N} apart \| With ([\d:]+) and the large end {N} the small end is {N} \| .*", inconsistent),
    "fillet-bearing": (rf"the fillet may be {N}, not smaller than the corner of the bearing, {N}: .* \| Make the fillet smaller than {N}, .*", fillet),
    "groove-deep": (rf"groove \w+ is {N} deep a side, but the widest tool that fits it, {N}, reaches {N} \({N} times its width at most\) \| .*", groove_deep),
    "groove-narrow": (rf".* is {N} wide at most, narrower than the narrowest grooving tool of the shop file, {N} \| Grind a tool of {N} or less .*", groove_narrow),
    "neck-weak": (rf".* is {N}, {N} of the {N} beside it and less than {N}: .* \| Make it {N} or larger, .*", neck),
    "relief-corner": (rf"the corner radius of .* is {N}, but the relief is only {N} deep a side \| Make the corner {N} or smaller: .*", relief_corner),
    "relief-diameter": (rf".* may be {N}, but the tool of (.*) cuts down to {N}: .* \| Make it {N} \+0/-0.010", relief_diameter),
    "ring-wall": (rf"the loaded wall of .* is {N} from the shoulder, but the bearing it should hold is {N} wide: .* at {N} from it: .*", ring_wall),
    "shoulder-height": (rf"the shoulder behind .* is {N} high; the bearing has a corner of {N} and wants {N} times that to seat \| Make the shoulder {N} or larger, .*", shoulder),
    "stock-length": (rf"sawn {N} long, but the part needs {N}: {N} overall, {N} to face both ends(?:, {N} to part off, {N} to hold it by)? \| Saw {N} or longer", stock_length),
    "stock-long": (rf"sawn {N} long for a part of {N}: {N} is faced away .* \| Saw it to {N}; .*", stock_long),
    "stock-scale": (rf"only {N} a side comes off .*: less than {N}, .*", scale),
    "thread-blank": (rf"the blank may be {N}, outside the major diameter of (.*): {N} to {N} \| Turn the blank to {N}, .*", blank),
    "thread-index": (rf"(.*) has (\d+) starts, {N} apart, .*", index),
    "thread-lead-travel": (rf"cutting (.*) takes {N} of carriage travel under the leadscrew, and the lathe has {N} between centers \| .*", lead_travel),
    "thread-no-runout": (rf"(5/8-18 UNF-2A) runs up to .*, {N}, above its pitch diameter {N}, .* \| Put a relief of {N} \+0/-0.010 between them \| .* `run-out: {N}`", runout),
    "thread-runout-time": (rf"even at the slowest gear, {N} rpm, the tool of (.*) passes relief (\w+) \({N} wide\) in {N} s, less than {N} s \| .*", runout_time),
    "thread-tap-drill": (rf"a drill of {N} for (.*): .* minor diameter is {N} to {N} \| The usual drill is (\d+), {N}", tap_drill),
    "thread-unknown": (rf"(.*) is in no series of its standard: diameter {N}, pitch {N} \| .*", unknown),
}


def judge(finding, own, shop, text):
    c = Case(finding, own, own, shop, text)
    pattern, work = PAGES[finding["check"]]
    m = re.fullmatch(pattern, " | ".join([finding["message"], *finding["help"]]))
    if not m:
        return None
    try:
        work(c, *m.groups())
    except (KeyError, TypeError, ValueError, IndexError, StopIteration, AttributeError) as e:
        return [repr(e)]
    left = {k for k, v in finding["compared"].items() if isinstance(v, (int, float)) and not isinstance(v, bool)} - c.worked
    return c.faults + [f"compared {k} is not worked" for k in sorted(left)]


def main():
    rows, program, pages, folder = sys.argv[1:5]
    listed = {r["check"]: r for r in csv.DictReader(l for l in open(rows, encoding="utf-8") if not l.startswith("#"))}
    faults, asked, otherwise, noticed, tried, kinds = [], 0, [], 0, 0, set()
    for name, check, text, shop, planned in cases(pages):
        if check not in PAGES:
            continue
        here = os.path.join(folder, name)
        os.makedirs(here, exist_ok=True)
        files = {"part.yaml": text, "shop.yaml": shop}
        for file, said in files.items():
            if said:
                open(os.path.join(here, file), "w", encoding="utf-8").write(said)
        said = subprocess.run([program, "plan" if planned else "check", "--format", "json", os.path.join(here, "part.yaml")], capture_output=True, text=True).stdout
        try:
            own = json.loads(said)
        except ValueError:
            faults.append(f"{name}: no reply")
            continue
        drawer = {**figures_check.shop_of(os.path.join(here, "shop.yaml")), "path": os.path.join(here, "shop.yaml")} if shop else {}
        for f in (f for f in own["findings"] if f["check"] == check):
            wrong = judge(f, own, drawer, text)
            if wrong is None:
                otherwise.append(f"{name}: {f['message']}")
                continue
            asked += 1
            kinds.add(check)
            faults += [f"{name}: {f['message']}: {w}" for w in wrong]
            for what, bad in spoilt(f) if not wrong else ():
                tried += 1
                found = judge(bad, own, drawer, text) != []
                noticed += found
                if not found and "-v" in sys.argv:
                    print("unnoticed:", check, what)
    faults += [f"worked again, and not so in the list: {k}" for k in sorted(kinds) if listed.get(k, {}).get("again") != "yes"]
    faults += [f"in the list as of a page, and not worked again: {k}" for k, r in listed.items() if r["met"] == "page" and k not in kinds]
    if noticed < 0.9 * tried:
        faults.append(f"of spoilt numbers only {noticed} of {tried} are noticed")
    for line in faults:
        print(line)
    if "-v" in sys.argv:
        print("\n".join(f"written otherwise: {o}" for o in otherwise))
    print(f"{asked} findings of {len(kinds)} checks of the pages worked again; {noticed} of {tried} spoilt numbers noticed; {len(otherwise)} sentences written otherwise are not judged")
    return 1 if faults or len(kinds) < 25 else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError) as e:
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
