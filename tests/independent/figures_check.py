#!/usr/bin/env python3
"""Work the numbers of a plan again, without turnwright.

Usage: figures_check.py PLAN.json [SHOP.yaml [MARKS.json]]   (figures_more.py beside it has the other half)
       figures_check.py --several PLANS.json    a reply for several parts, each with the shop file that its description names beside it
PLAN.json is a reply of `plan --format json`. MARKS.json is one of `marks`. Of the shop file only the dials, gears, leadscrew and wires are read. Every number that
can be worked from its neighbours by school arithmetic is; exit 1 with a line for each that differs, 2 when unreadable.

Sources of the formulas: depth 0.6134 P and infeed by equal areas d sqrt(i/n), compound travel depth / cos: PLANNING's
published texts (US Navy NAVEDTRA 14345; tool makers' V form); keyseat f = R - sqrt(R2 - (W/2)2): NAVEDTRA 14345, keyseats; surface speed rpm = 12 v / (pi d).
"""
import json
import math
import os
import re
import sys
from fractions import Fraction as F

import figures_bar
import figures_gears
import figures_give
import figures_held
import figures_recipes
import figures_scale
import figures_sentences
import figures_written
from figures_more import More

wrong, asked = [], 0


def same(where, what, printed, worked, within):
    global asked
    asked += 1
    if printed is None or abs(printed - worked) > within:
        wrong.append(f"{where}: {what} printed {printed}, worked {worked}")


def exact(number):
    return F(str(number))


def size(text):
    """1 1/2, .093, 0.5 mm: the number alone."""
    words = re.findall(r"\d*\.?\d+(?:/\d+)?", text)
    return sum(F(w) for w in words[:1 if "/" not in text else 2])


def shop_of(path):
    """The few lines needed; block and flow lists as the samples write them."""
    text = "\n".join(line.split(" #")[0] for line in open(path, encoding="utf-8").read().splitlines())
    shop = {"units": re.search(r"^units:\s*(\w+)", text, re.M).group(1)}
    if found := re.search(r"^leadscrew:\s*([\d ./]+?)\s*(tpi|mm)", text, re.M):
        shop["leadscrew"] = 1 / size(found.group(1)) if found.group(2) == "tpi" else size(found.group(1)) / F("25.4")
    for key in ("cross dial", "carriage dial", "compound dial", "tailstock dial", "thread dial"):
        found = re.search(rf"^{key}:\s*{{(.*)}}", text, re.M)
        if found:
            pairs = dict(p.split(":", 1) for p in found.group(1).split(","))
            shop[key] = {k.strip(): v.strip() for k, v in pairs.items()}
    for key in ("speeds", "wires", "feeds"):
        found = re.search(rf"^{key}:\s*\[(.*?)\]", text, re.M | re.S)
        if found:
            shop[key] = [size(t) for t in found.group(1).split(",")]
    if found := re.search(r"^dividing head:.*ratio:\s*(\d+).*circles:\s*\[(.*?)\]", text, re.M):
        shop["head"] = int(found.group(1)), [int(n) for n in found.group(2).split(",")]
    if found := re.search(r"^surface speed:.*hss:\s*([\d.]+)", text, re.M):
        shop["hss"] = float(found.group(1))
    if found := re.search(r"^power:\s*([\d.]+)\s*(hp|kW)", text, re.M):
        shop["watts"] = float(found.group(1)) * (745.7 if found.group(2) == "hp" else 1000.0)
    if found := re.search(r"^depth of cut:\s*{(.*)}", text, re.M):
        for k, v in (p.split(":", 1) for p in found.group(1).split(",")):
            shop[k.strip()] = size(v)
    if found := re.search(r"^minutes:\s*{(.*)}", text, re.M):
        shop["minutes"] = {k.strip(): float(v) for k, v in (p.split(":", 1) for p in found.group(1).split(","))}
    if found := re.search(r"^change gears:\s*\[(.*?)\]", text, re.M | re.S):
        shop["change gears"] = [int(n) for n in found.group(1).split(",")]
    if found := re.search(r"^start index:\s*(\w+)", text, re.M):
        shop["start index"] = found.group(1)
    shop["threads"] = leads_of(text, shop["units"])
    shop["parting"] = [size(w) for w in re.findall(r"tool:\s*parting,\s*width:\s*([\d./]+)", text)]
    shop["instruments"] = re.findall(r"instrument:\s*([\w ]+)", text)
    shop["ranges"] = re.findall(r"instrument:\s*([\w ]+), range:\s*([\d.]+)\.\.([\d.]+)", text)
    if found := re.search(r"^tailstock travel:\s*([\d./]+)", text, re.M):
        shop["tailstock travel"] = size(found.group(1))
    shop["center drills"] = [t.strip() for t in re.findall(r"tool:\s*center drill, size:\s*([^}]+)}", text)]
    inches = lambda t: float(size(t.replace("mm", "").strip())) / (25.4 if "mm" in t or shop["units"] == "mm" else 1)
    shop["drills"] = [inches(t) for t in re.findall(r"tool: *drill, *diameter: *([^,}]+)", text)]
    shop["jaws"] = [size(n) for n in re.findall(r"jaw length:\s*([\d./]+)", text)]
    shop["dogs"] = [size(n) for n in re.findall(r"largest:\s*[\d./]+,\s*long:\s*([\d./]+)", text)]
    shop["grooving"] = [size(w) for w in re.findall(r"tool:\s*grooving,\s*width:\s*([\d./]+)", text)]
    return shop


def leads_of(text, units):
    """Every lead that the gearbox lists, in inches."""
    found = re.search(r"^threads:\s*{(.*)}", text, re.M)
    if not found:
        return []
    lists = {key: listed.split(",") for key, listed in re.findall(r"(tpi|pitches):\s*\[(.*?)\]", found.group(1))}
    metric = lambda t: "mm" in t or units == "mm"
    pitches = [F(re.match(r"\s*([\d.]+)", t).group(1)) / (F("25.4") if metric(t) else 1) for t in lists.get("pitches", [])]
    return [1 / size(t) for t in lists.get("tpi", [])] + pitches


def drive_of(drive, where, op, units):
    """What drives the thread of an operation, outside or inside."""
    if t := op.get("thread"):
        pitch, starts = exact_pitch(t["designation"])
        name = t["designation"].replace(",", ".")
        nominal = size(re.match(r"(?:M|Tr ?)?([\d/. ]+?)(?=[x-])", name).group(1))
        nominal = nominal / F("25.4") if re.match(r"M|Tr", name) else nominal
        drive.check(where, t, pitch * starts, pitch, starts, nominal)
    h = op.get("hole") or {}
    if h.get("gearbox") is not None and h.get("thread"):
        t = h["thread"]
        exactly = lambda key: F(str(t[key])).limit_denominator(1000) if units == "in" else F(str(t[key])) / F("25.4")
        drive.check(where, h, exactly("lead"), exactly("pitch"), round(t["lead"] / t["pitch"]), exactly("nominal"))


def in_dial(length, dial, units, shop_units):
    """Turns and divisions of a length; dials are told in their own unit."""
    factor = F(1) if units == shop_units else (F("25.4") if units == "in" else 1 / F("25.4"))
    turn, division = size(dial["turn"]), size(dial["division"])
    ticks = abs(length * factor) / division
    whole = turn / division
    ticks = math.floor(ticks + F(1, 2))
    return ticks // whole, ticks % whole


def dial_row(where, printed, length, dial, units, shop):
    turns, divisions = in_dial(length, dial, units, shop["units"])
    whole = size(dial["turn"]) / size(dial["division"])
    got = printed["turns"] * whole + printed["divisions"]
    want = turns * whole + divisions
    # A length just between two lines may be told by either.
    same(where, "dial lines", float(got), float(want), 1 if ties(length, dial, units, shop) else 0)


def ties(length, dial, units, shop):
    factor = F(1) if units == shop["units"] else (F("25.4") if units == "in" else 1 / F("25.4"))
    rest = abs(length * factor) / size(dial["division"]) % 1
    return abs(rest - F(1, 2)) < F(1, 20)


def over_the_face(plan, setup, overall):
    """The bar's own end lies so far beyond the finished face: an eighth of an inch or 3.2 mm at the datum end at most, half where there is less, the rest at
    the other (common practice, no source)."""
    if setup["zero"] != "sawn end of the bar":
        return 0
    over = exact(plan["stock"]["length"]) - overall
    clean = min(over / 2, F("0.125") if plan["units"] == "in" else F("3.2"))
    return clean if setup["works"] == "datum" else over - clean


def positions(where, op, overall, zero, units, shop, over=0):
    width = exact(op["tool_width"]) if op.get("tool_width") else None
    for p in op["positions"]:
        here = f"{where}, {p['what']}"
        datum = exact(p["from_datum"])
        same(here, "from far end", p["from_far_end"], float(overall - datum), 2e-7)
        if p["carriage"] is None:
            continue
        wall = (datum if zero == "datum" else overall - datum) + over
        carriage = exact(p["carriage"])
        if not (p["what"].startswith("plunge") and width):
            same(here, "carriage", p["carriage"], float(wall), 2e-7)
        if p.get("dial") and "carriage dial" in shop:
            dial_row(here, p["dial"], carriage, shop["carriage dial"], units, shop)


def plunges(where, op, overall, zero):
    """The left edge cuts the wall nearer the headstock, the right edge, a tool's width nearer the tailstock, the other."""
    rows = [p for p in op["positions"] if p["what"].startswith("plunge") and p["carriage"] is not None]
    if not rows or not op.get("tool_width"):
        return
    width = exact(op["tool_width"])
    walls = [exact(p["from_datum"]) if zero == "datum" else overall - exact(p["from_datum"]) for p in rows]
    edges = sorted(exact(p["carriage"]) for p in rows)
    same(where, "last plunge", float(edges[-1]), float(max(walls)), 2e-7)
    if len(rows) > 1:
        same(where, "first plunge", float(edges[0]), float(min(walls) + width), 2e-7)
    if any(b - a > width for a, b in zip(edges, edges[1:])):
        wrong.append(f"{where}: a rib is left between two plunges")


def cross(where, op, units, shop):
    c = op["cross_dial"]
    if not c or "cross dial" not in shop:
        return
    a_side = 2 if c["reads"] == "radius" else 1
    out = -1 if op["inside"] else 1
    # Parted off, the tool goes to the middle or into the hole there, rounded to what a diameter is printed in.
    to = exact(op["to_diameter"]) if op["to_diameter"] is not None else exact(op["from_diameter"]) - 2 * exact(op["travel"])
    infeed = (exact(op["from_diameter"]) - to) / a_side * out
    same(where, "infeed", c["infeed"], float(infeed), 2e-7)
    dial_row(f"{where}, cross dial", c, infeed, shop["cross dial"], units, shop)
    zero = c.get("from_zero")
    if zero:
        reading = (exact(zero["zero_on_diameter"]) - to) / a_side * out
        if reading < 0:
            wrong.append(f"{where}: the dial would stand below its zero")
        dial_row(f"{where}, cross dial from its zero", zero, reading, shop["cross dial"], units, shop)


def speed(where, op, units, shop):
    d, wanted = op["from_diameter"], op["wanted_rpm"]
    if op["rpm"] and shop.get("speeds"):
        # The wanted speed is printed to a tenth: a gear just at it may be told either way.
        gears = [max([s for s in shop["speeds"] if s <= F(str(wanted)) + off], default=min(shop["speeds"])) for off in (F(-1, 20), F(1, 20))]
        same(where, "gear", op["rpm"], float(min(gears, key=lambda g: abs(g - op["rpm"]))), 0)
    if op["rpm"] and d and op["surface_speed"]:
        if op["verb"] == "tap" or op["inside"]:
            d = op["to_diameter"]
        v = math.pi * d * op["rpm"] / (12 if units == "in" else 1000)
        # A thread's speed is told by its nominal size, which its blank is a little under.
        same(where, "surface speed", op["surface_speed"], v, 0.06 + (0.03 * v if op["verb"] == "thread" else 0) + (0.02 * v if (op.get("thread") or {}).get("pipe") else 0))
    if op["passes"] and op["depth_of_cut"] and d and op["to_diameter"]:
        same(where, "passes x depth", op["passes"] * op["depth_of_cut"], abs(op["from_diameter"] - op["to_diameter"]) / 2, 2e-6 if units == "in" else 1e-5 * op["passes"])


def last_cuts(where, op, units, shop):
    """Equal cuts: each as the dial can set it, and what the micrometer reads after it."""
    cuts = op.get("cuts") or []
    for i, cut in enumerate(cuts[:-1], 1):
        here = f"{where}, cut {i}"
        out = 1 if op["inside"] else -1
        same(here, "reading", cut["should_read"], op["from_diameter"] + out * 2 * i * cut["depth"], 2e-6 if units == "in" else 2e-5)
        if cut["dial"] and "cross dial" in shop:
            division = size(shop["cross dial"]["division"])
            a_side = exact(op["depth_of_cut"])
            a_side *= 1 if units == shop["units"] else (F("25.4") if units == "in" else 1 / F("25.4"))
            turned = a_side * (2 if op["cross_dial"] and op["cross_dial"]["reads"] == "diameter" else 1)
            whole = size(shop["cross dial"]["turn"]) / division
            lines = cut["dial"]["turns"] * whole + cut["dial"]["divisions"]
            # A cut between two lines is set on one of them.
            same(here, "dial lines", float(lines), float(turned / division), 0.5001)
    if cuts:
        same(where, "number of last cuts", len(cuts), op["passes"], 0)


def taper(where, t, units, overall):
    a, b = t["checks"][:2] if len(t["checks"]) > 1 else (None, None)
    if not a:
        return
    rate = abs(a["diameter"] - b["diameter"]) / abs(a["from_datum"] - b["from_datum"])
    fine = 1e-4 if units == "in" else 2e-3
    same(where, "half angle", t["half_angle_deg"], math.degrees(math.atan(rate / 2)), 0.02)
    if t["setover"] is not None:
        same(where, "set-over", t["setover"], rate / 2 * float(overall), 20 * fine)
    same(where, "taper per foot or 100 mm", t["per_length"], rate * (12 if units == "in" else 100), 10 * fine)


def flats(where, f, units, rows):
    fine = 2e-6 if units == "in" else 2e-5
    r, deep = f["round"], f["depth"]
    for what, end in (("flat from", "from"), ("flat to", "to")):
        same(where, what, rows.get(what), f["along"][end], fine)
    if f["across_limits"]:
        if not f["across_limits"]["min"] - fine <= f["across"] <= f["across_limits"]["max"] + fine:
            wrong.append(f"{where}: {f['across']} across is outside its limits")
        # Limits that are wider than a hundredth of the size are no limits of flats.
        same(where, "band across flats", (f["across_limits"]["max"] - f["across_limits"]["min"]) / f["across"], 0.0, 0.02)
    if f["count"] > 1:
        same(where, "across", f["across"], r - 2 * deep, fine)
        same(where, "between two flats", f["divide_deg"], 360 / f["count"], 1e-9)
        sharp = f["across"] / math.cos(math.pi / f["count"]) if f["count"] in (4, 6) else r
        same(where, "corners", f["corners"], min(sharp, r), fine)
    same(where, "after the first", f["after_first"], r - deep, fine)
    if f["corners"] >= r - fine:
        same(where, "width of a flat", f["width"], 2 * math.sqrt(deep * (r - deep)), fine)


def hole(where, op, units, shop):
    h = op["hole"]
    if h["to_point"]:
        # A point of 118 degrees.
        # Through, while bar stands behind: to where the full diameter ends in it.
        deep = h["depth"] if h["depth"] is not None else next(p["carriage"] for p in op["positions"] if p["what"] == "past the face")
        same(where, "to the point", h["to_point"] - deep, op["to_diameter"] / 2 / math.tan(math.radians(59)), 5.1e-4 if units == "in" else 1.01e-2)
    dial = h["tailstock"]
    if dial and "tailstock dial" in shop and shop["units"] == units:
        d = shop["tailstock dial"]
        told = dial["turns"] * size(d["turn"]) + dial["divisions"] * size(d["division"])
        same(where, "tailstock handwheel", float(told), h["depth"], float(size(d["division"])) / 2 + 1e-9)


def half_nuts(where, t, pitch, starts, units, shop):
    """Line k of m on a worm wheel of z: the carriage may be z k / m threads of the leadscrew further on; the thread must be there again."""
    if "thread dial" not in shop or "leadscrew" not in shop or not t["dial"]:
        return
    screw, lead = shop["leadscrew"], pitch * starts
    teeth, marks = int(size(shop["thread dial"]["teeth"])), int(size(shop["thread dial"]["marks"]))
    # A line is the same place again after any number of whole turns only if a turn is a whole number of leads.
    whole = (teeth * screw / lead).denominator == 1
    ok = [k for k in range(1, marks + 1) if whole and teeth * k % marks == 0 and (teeth * k // marks * screw / lead).denominator == 1]
    same(where, "anywhere", float(t["dial"]["anywhere"]), float((screw / lead).denominator == 1), 0)
    if t["dial"]["anywhere"] and t["dial"]["lines"] not in ([], list(range(1, marks + 1))):
        wrong.append(f"{where}: anywhere, but lines {t['dial']['lines']}")
    if not t["dial"]["anywhere"]:
        same(where, "number of dial lines", len(t["dial"]["lines"]), 0 if t["dial"]["never_open"] else len(ok), 0)
        if not t["dial"]["never_open"] and t["dial"]["lines"] != ok:
            wrong.append(f"{where}: dial lines printed {t['dial']['lines']}, worked {ok}")


def exact_pitch(text):
    """Pitch in inches as a fraction, and starts."""
    text = text.replace(",", ".")
    if m := re.search(r"Tr\s*[\d.]+\s*x\s*([\d.]+)(?:\(P([\d.]+)\))?", text):
        return F(m.group(2) or m.group(1)) / F("25.4"), int(F(m.group(1)) / F(m.group(2))) if m.group(2) else 1
    if m := re.search(r"M[\d.]+\s*x\s*([\d.]+)", text):
        return F(m.group(1)) / F("25.4"), 1
    if m := re.search(r"-([\d.]+)P-([\d.]+)L", text):
        return F(m.group(1)), int(F(m.group(2)) / F(m.group(1)))
    if m := re.match(r"(?:No\. ?)?[\d/ .-]*?-(\d+(?:\.\d+)?) ", text):
        return 1 / F(m.group(1)), 1
    return None


# Pitch diameters, largest and smallest, class 2A of ASME B1.1 (other printings: tests/reference/unified.csv).
PITCH_DIAMETERS = {"5/8-18 UNF-2A": (0.5875, 0.5828), "1/2-20 UNF-2A": (0.4662, 0.4619)}


def over_wires(where, t):
    """M = E + 3 W - .86603 P."""
    if t["designation"] in PITCH_DIAMETERS and t["over_wires"]:
        pitch = float(exact_pitch(t["designation"])[0])
        for key, e in zip(("max", "min"), PITCH_DIAMETERS[t["designation"]]):
            same(where, f"over wires {key}", t["over_wires"][key], e + 3 * t["wire"] - 0.86603 * pitch, 1.01e-4)


def equal_areas(where, t, half, units):
    """A tool with a flat w cuts w d + d2 tan(half angle): the flat from the first and last cut, then the others with it."""
    angle = math.radians(t["compound"]["angle"])
    # The last two may be fine (figures_recipes.py).
    d = [p * math.cos(angle) for p in t["passes"]]
    if len(d) > 2 and figures_recipes.fine_end([b - a for a, b in zip(d, d[1:])], units):
        d = d[:-2]
    n, tan = len(d), math.tan(math.radians(half))
    if n < 4 or n * d[0] - d[-1] <= 0:
        return
    flat = tan * (d[-1] ** 2 - n * d[0] ** 2) / (n * d[0] - d[-1])
    for i in range(1, n - 1):
        same(f"{where}, pass {i + 1}", "area", flat * d[i] + d[i] ** 2 * tan, (i + 1) / n * (flat * d[-1] + d[-1] ** 2 * tan), 0.01 * d[-1] ** 2)


def marks_of(marks, overall, units, plan):
    """Height-gauge settings for the face that the bar stands on; labels count through both lists."""
    counted = 0
    sizes = {d for s in plan["setups"] for o in s["operations"] for d in (o["from_diameter"], o["to_diameter"]) if d}
    numbers = {o["number"] for s in plan["setups"] for o in s["operations"]}
    for n, most in zip(marks["lists"], (6, 10)):
        if len(n["marks"]) > most:
            wrong.append(f"{n['name']}: {len(n['marks'])} lines")
        for m in n["marks"]:
            counted += 1
            here = f"mark {m['label']}"
            same(here, "label", float(m["label"][1:]), counted, 0)
            datum = m["from_datum"]
            if m["on_diameter"] is not None and sizes and min(abs(d - m["on_diameter"]) for d in sizes) > (2e-6 if units == "in" else 2e-5):
                wrong.append(f"{here}: on {m['on_diameter']}, which nothing is turned to")
            # 0: on the bare bar.
            if m["after"] and m["after"] not in numbers:
                wrong.append(f"{here}: after {m['after']}, which is no operation")
            if m["carriage"] is not None:
                near = min(abs(m["carriage"] - datum), abs(m["carriage"] - (float(overall) - datum)))
                same(here, "carriage", near, 0.0, 2e-6 if units == "in" else 2e-5)
            same(here, "height gauge", m["height_gauge"], datum if n["standing_on"].startswith("datum") else float(overall) - datum, 2e-6 if units == "in" else 2e-5)


def pitch_of(designation):
    """Pitch in the unit of the designation, half of the flank angle, starts."""
    text = designation.replace(",", ".")
    if m := re.search(r"Tr\s*[\d.]+\s*x\s*([\d.]+)(?:\(P([\d.]+)\))?", text):
        return float(m.group(2) or m.group(1)), 15.0, "mm"
    if m := re.search(r"M[\d.]+\s*x\s*([\d.]+)", text):
        return float(m.group(1)), 30.0, "mm"
    half = 14.5 if "acme" in text.lower() else 30.0
    if m := re.search(r"-([\d.]+)P-", text):
        return float(m.group(1)), half, "in"
    if m := re.match(r"(?:No\. ?)?[\d/ .-]*?-(\d+(?:\.\d+)?) ", text):
        return 1 / float(m.group(1)), half, "in"
    return None


def cuts_of_a_v(depth, travel, first, units):
    """15.2 times the root of the depth in mm (insert makers' tables, a quarter more), none thinner than 0.05 mm, four at least; more
    only where the second would be deeper than a bounded first."""
    mm = 25.4 if units == "in" else 1.0
    n = max(4, min(math.ceil(15.2 * math.sqrt(depth * mm) - 1e-3), math.floor(travel * mm / 0.1 + 1e-4)))
    while travel ** 2 > first ** 2 * (3 * n - 2) * 1.001:
        n += 1
    return n


def thread(where, op, units, shop):
    t = op["thread"]
    known = pitch_of(t["designation"])
    if not known:
        return
    pitch, half, unit = known
    pitch *= 1 if unit == units else (1 / 25.4 if units == "in" else 25.4)
    if t["depth_is"] == "0.6134 P":
        same(where, "depth", t["depth"], 0.61343 * pitch, 1e-5 if units == "in" else 2e-4)
    cuts = t["passes"]
    # Where the compound shifts from start to start the thread is fed straight in.
    if t["compound"]:
        # Half a degree less than half the thread's angle (NAVEDTRA 14345), or half of it (F. D. Jones).
        same(where, "compound's angle", min(abs(t["compound"]["angle"] - a) for a in (half, half - 0.5)), 0.0, 1e-9)
        angle = math.radians(t["compound"]["angle"])
        same(where, "compound travel", t["compound"]["travel"], t["depth"] / math.cos(angle), 2e-6 if units == "in" else 5e-5)
    if half == 30.0 and cuts and t["compound"]:
        # Equal areas: each cut as deep as the square root of its share; the first may be bounded, and the others share what it leaves.
        same(where, "last cut", cuts[-1], t["compound"]["travel"], 2e-6 if units == "in" else 5e-5)
        n, first, last = len(cuts), cuts[0], cuts[-1]
        same(where, "number of cuts", n, cuts_of_a_v(t["depth"], last, first, units), 0)
        middle = n // 2
        same(where, "infeed of equal areas at the middle cut", cuts[middle],
             math.sqrt(first ** 2 + middle * (last ** 2 - first ** 2) / (n - 1)), cuts[-1] * 0.02)
    if half != 30.0 and cuts and t["compound"]:
        equal_areas(where, t, half, units)
    if any(b <= a for a, b in zip(cuts, cuts[1:])):
        wrong.append(f"{where}: the infeed does not rise")
    inches, starts = exact_pitch(t["designation"])
    half_nuts(where, t, inches, starts, units, shop)
    over_wires(where, t)
    if half == 30.0 and t["lead_angle_deg"]:
        # At the basic pitch diameter, D - .6495 P.
        basic = t["blank"]["max"] - 0.649519 * pitch
        same(where, "lead angle", t["lead_angle_deg"], math.degrees(math.atan(pitch * starts / (math.pi * basic))), 0.02)
    if t["indexing"]:
        same(where, "starts", t["indexing"]["starts"], starts, 0)
        same(where, "from start to start", t["indexing"]["shift"], pitch, 1e-6 if units == "in" else 2e-5)
    if t["best_wire"]:
        best = pitch / 2 / math.cos(math.radians(half))
        same(where, "best wire", t["best_wire"], best, 6e-5 if units == "in" else 6e-4)
    wires = [w for w in shop.get("wires", []) if shop["units"] == units]
    if wires and t["wire"] and t["best_wire"]:
        # Of those that touch the flanks and stand out: .56 to .90 pitches, on 29 and 30 degrees .4875 to .65 (handbook tables, from memory).
        low, high = (0.56, 0.90) if half == 30.0 else (0.4875, 0.65)
        usable = [w for w in wires if low * pitch <= w <= high * pitch] or wires
        nearest = min(abs(float(w) - t["best_wire"]) for w in usable)
        if any(abs(float(w) - t["wire"]) < 1e-9 for w in wires):
            same(where, "nearest wire", abs(t["wire"] - t["best_wire"]), nearest, 1e-9)


def keyseat(where, op, units, finished):
    k = op["keyseat"]
    if k.get("depth_at_side") is None or k.get("across_bottom") is None:
        return
    # Depth and what stays across make up the seat, at its largest.
    across = k["depth_from_top"] + k["across_bottom"]
    seat = min(finished, key=lambda d: abs(d - across), default=None)
    if seat is None:
        return
    same(where, "depth and what stays across", across, seat, 2e-6 if units == "in" else 2e-5)
    r, half = seat / 2, k["width"] / 2
    f = r - math.sqrt(r * r - half * half)
    exactly = 1e-6 if units == "in" else 2e-5
    if k["depth_at_side"] is not None:
        same(where, "depth from the top", k["depth_from_top"], k["depth_at_side"] + f, exactly)
    same(where, "across the bottom", k["across_bottom"], 2 * r - k["depth_from_top"], exactly)
    if c := k.get("cutter_center"):
        same(where, "cutter's centre, from", c["from"], k["slot"]["from"] + half, 2e-5 if units == "in" else 2e-4)
        same(where, "cutter's centre, to", c["to"], k["slot"]["to"] - half, 2e-5 if units == "in" else 2e-4)
    if k.get("center") is not None:
        same(where, "centre of the cutter", k["center"], (k["slot"]["from"] + k["slot"]["to"]) / 2, 2e-5 if units == "in" else 2e-4)
    limits = k["across_bottom_limits"]
    if not limits["min"] - exactly <= k["across_bottom"] <= limits["max"] + exactly:
        wrong.append(f"{where}: across the bottom is outside its own limits")
    same(where, "side touch", k["side_touch"], r + half, 6e-5 if units == "in" else 6e-3)
    if rough := k.get("roughed"):
        on_roughed(where, op, k, rough, r, half, exactly)
    if "Woodruff" in k["key"] and k["cutter_diameter"]:
        c = k["cutter_diameter"] / 2
        # Longest on the middle plane, where the seat's top is highest.
        chord = math.sqrt(c * c - (c - k["depth_from_top"]) ** 2)
        same(where, "slot", k["slot"]["to"] - k["slot"]["from"], 2 * chord, 1e-4 if units == "in" else 3e-3)


def on_roughed(where, op, k, rough, r, half, exactly):
    """Milled before the finish: what is still to come off a side is added to the depth and to what stays across; the seat's own band is not in it (plain geometry)."""
    still = op["from_diameter"] / 2 - r
    same(where, "roughed diameter", rough["diameter"], op["from_diameter"], exactly)
    same(where, "still to come off a side", rough["still"], still, exactly)
    same(where, "depth from the roughed top", rough["depth_from_top"], k["depth_from_top"] + still, exactly)
    for at, deep in (("max", "min"), ("min", "max")):
        same(where, f"across the roughed round, {at}", rough["across_bottom_limits"][at], op["from_diameter"] - still - k["depth_limits"][deep], exactly)
    same(where, "side touch of the roughed round", rough["side_touch"], op["from_diameter"] / 2 + half, exactly)


def lengths_of(op):
    """The dial's reading is the carriage's number in the dial's own unit."""
    return [(p, p["carriage"]) for p in op["positions"] if p.get("dial") and p["carriage"] is not None]


def more_of(more, op, where, at_far, finished):
    units = more.units
    more.speed(where, op)
    more.feed(where, op)
    more.passes(where, op)
    more.minutes(where, op)
    more.spans(where, op)
    more.tool(where, op)
    for p, length in lengths_of(op):
        more.dial(f"{where}, {p['what']}", "carriage dial", p["dial"], length / more.from_shop, "carriage dial")
    if c := op["cross_dial"]:
        zero = c["from_zero"]
        to = op["to_diameter"] if op["to_diameter"] is not None else op["from_diameter"] - 2 * op["travel"]
        a_side = abs(zero["zero_on_diameter"] - to) / (2 if c["reads"] == "radius" else 1)
        more.dial(where, "cross dial from its zero", zero, a_side / more.from_shop, "cross dial")
    for cut in op.get("cuts") or []:
        if cut["dial"]:
            twice = more.shop["cross dial"]["reads"].strip() == "diameter"
            more.dial(where, "a last cut", cut["dial"], cut["depth"] / more.from_shop * (2 if twice else 1), "cross dial")
    if "taper" in op:
        more.taper(where, op, op["taper"], at_far)
    if "knurl" in op:
        more.knurl(where, op["knurl"])
    if "crown" in op:
        more.crown(where, op, op["crown"])
    if "chamfer" in op:
        more.chamfer(where, op)
    if "center" in op:
        more.center(where, op["center"])
    if "hole" in op:
        more.hole(where, op)
        if op["hole"].get("dial") and op["hole"].get("thread") and more.shop:
            t = op["hole"]["thread"]
            pitch = F(str(t["pitch"])) if units == "in" else F(str(t["pitch"])) / F("25.4")
            pitch = pitch.limit_denominator(1000) if units == "in" else pitch
            half_nuts(where, {"dial": op["hole"]["dial"]}, pitch, round(t["lead"] / t["pitch"]), units, more.shop)
        if op["hole"]["tailstock"]:
            more.dial(where, "tailstock handwheel", op["hole"]["tailstock"], op["hole"]["depth"] / more.from_shop, "tailstock dial")
    if "thread" in op:
        t = op["thread"]
        pitch, half, unit = pitch_of(t["designation"])
        inches, starts = exact_pitch(t["designation"])
        pitch *= 1 if unit == units else (1 / 25.4 if units == "in" else 25.4)
        fine = 1e-6 if units == "in" else 1e-5
        same(where, "pitch", t["pitch"], pitch, fine)
        same(where, "lead", t["lead"], pitch * starts, fine * starts)
        more.relief(where, op, pitch * starts)
        more.blank(where, t)
        more.wires(where, t, pitch, half)
        twice = not t["compound"] and "cross dial" in more.shop and more.shop["cross dial"]["reads"].strip() == "diameter"
        more.on_dial(where, t.get("on_dial"), t["passes"], "compound dial" if t["compound"] else "cross dial", twice)
        if t["straight"] is not None and "cross dial" in more.shop:
            d = more.shop["cross dial"]
            counted = t["depth"] / more.from_shop * (2 if d["reads"].strip() == "diameter" else 1)
            # Told in the part's unit.
            same(where, "straight in", t["straight"], counted * more.from_shop, float(size(d["division"])) * more.from_shop / 2 + 1e-6)
        if t["compound"] and t["hand"] == "right" and t["compound"]["handle"] != "tailstock":
            wrong.append(f"{where}: the compound's handle toward the {t['compound']['handle']}")
    if "keyseat" in op:
        slot = op["keyseat"]["slot"]
        middle = (slot["from"] + slot["to"]) / 2
        seat = next((limits for a, b, limits in finished if a <= middle <= b), None)
        more.keyseat(where, op["keyseat"], seat)


def several(path):
    """Every plan of a reply."""
    numbers = faulty = 0
    plans = json.load(open(path, encoding="utf-8"))
    for plan in plans:
        text = open(plan["file"], encoding="utf-8").read()
        named = re.search(r"^lathe:\s*(\S+)", text, re.M)
        shop = shop_of(os.path.join(os.path.dirname(plan["file"]), named.group(1))) if named else {}
        done, differ = check(plan, shop, [])
        numbers += done
        faulty += bool(differ)
        for line in differ:
            print(f"{plan['file']}: {line}")
    print(f"{numbers} numbers of {len(plans)} plans worked again, {faulty} plans differ")
    return 1 if faulty or not numbers else 0


def main():
    if sys.argv[1] == "--several":
        return several(sys.argv[2])
    plan = json.load(open(sys.argv[1], encoding="utf-8"))
    shop = shop_of(sys.argv[2]) if len(sys.argv) > 2 else {}
    check(plan, shop, [json.load(open(path, encoding="utf-8")) for path in sys.argv[3:]])
    for line in wrong:
        print(line)
    print(f"{asked} numbers worked again, {len(wrong)} differ")
    return 1 if wrong or not asked else 0


def check(plan, shop, marks_replies):
    global asked
    asked = 0
    wrong.clear()
    more = More(same, wrong.append, plan, shop)
    more.mass()
    more.fits()
    seats = []
    units = plan["units"]
    spans = [exact(p["from_datum"]) + exact(p["from_far_end"])
             for s in plan["setups"] for o in s["operations"] for p in o["positions"]]
    overall = max(set(spans), key=spans.count)
    numbers, minutes = [], F(0)
    # A seat may be drawn with limits on both sides: a slot counts from its drawn size; or it is the bar's own.
    finished = figures_written.drawn_sizes(plan)
    drive = figures_gears.Drive(plan, shop, same, wrong.append)
    for s in plan["setups"]:
        zero = "far" if s["works"] == "far" else "datum"
        more.holding(s, overall)
        for op in s["operations"]:
            numbers.append(op["number"])
            where = f"{op['number']} {op['verb']} {op['feature'] or ''}".strip()
            minutes += exact(op["minutes"])
            positions(where, op, overall, zero, units, shop, over_the_face(plan, s, overall))
            plunges(where, op, overall, zero)
            cross(where, op, units, shop)
            speed(where, op, units, shop)
            last_cuts(where, op, units, shop)
            if "taper" in op:
                taper(where, op["taper"], units, overall)
            if "flats" in op:
                flats(where, op["flats"], units, {p["what"]: p["from_datum"] for p in op["positions"]})
            if "hole" in op:
                hole(where, op, units, shop)
            if op["limits"] and op["to_diameter"]:
                finished.append(op["limits"]["max"])
                if op["span"] and op["verb"] in ("finish", "turn", "polish"):
                    # The latest that made it first: polished after turned.
                    seats.insert(0, (min(op["span"].values()), max(op["span"].values()), op["limits"]))
                if op["verb"] != "knurl" and not op["limits"]["min"] - 1e-6 <= op["to_diameter"] <= op["limits"]["max"] + 1e-6:
                    wrong.append(f"{where}: aims at {op['to_diameter']}, outside its limits")
            more_of(more, op, where, s["works"] == "far", seats)
            if shop:
                drive_of(drive, where, op, units)
            if "thread" in op:
                thread(where, op, units, shop)
            if "keyseat" in op:
                keyseat(where, op, units, finished)
    more.order(set(numbers))
    more.span_ends([o for s in plan["setups"] for o in s["operations"]], float(overall))
    more.eccentrics()
    more.reliefs([o for s in plan["setups"] for o in s["operations"]])
    more.sizes_before([o for s in plan["setups"] for o in s["operations"]])
    more.polish([o for s in plan["setups"] for o in s["operations"]])
    figures_scale.check(plan, marks_replies, shop, same, wrong.append)
    figures_written.check(more, plan, same, wrong.append)
    figures_recipes.check(plan, shop, same, wrong.append)
    figures_sentences.check(plan, shop, overall, more.bar, same, wrong.append)
    figures_held.check(plan, more.bar, same, wrong.append)
    figures_give.check(plan, shop, more.bar, same, wrong.append)
    figures_bar.Bar(plan, shop, same, wrong.append).check()
    figures_bar.whole(plan, same, wrong.append)
    more.inspection([o for s in plan["setups"] for o in s["operations"]])
    if numbers != sorted(numbers) or any(n % 10 for n in numbers):
        wrong.append(f"operation numbers are not 10, 20, 30 …: {numbers}")
    ops = {o["id"]: o for s in plan["setups"] for o in s["operations"]}
    certificate = plan["certificate"]
    for o in certificate["ops"]:
        cost = o["cost"]
        if not isinstance(cost, dict) and o["id"] in ops:
            same(o["id"], "minutes against the certificate", ops[o["id"]]["minutes"], cost, 0.006)
    for marks in marks_replies:
        marks_of(marks, overall, units, plan)
        figures_recipes.lying(marks, plan, same, wrong.append)
    return asked, list(wrong)


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError) as e:
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
