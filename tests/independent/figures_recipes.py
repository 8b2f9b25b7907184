"""What the hands do between the numbers: touch-offs, what a reading over wires is worth, turns of a crank, teeth of a wheel, undercuts, pipe threads.

Used by figures_check.py. Angles are read from the description again (its `angle:` lines). Sources: half the round and half of what touches it, Fox Valley
Technical College (keyseats); M = E + 3 W - .86603 P, ASME B1.2; turns = ratio x degrees / 360, US Army OD1644; teeth, F. D. Jones, Turning and Boring (1914);
DIN 509, tests/reference/din509.csv (IS 3428:2009); taper pipe threads E0 = D - (.05 D + 1.1) p, L2 = (.8 D + 6.8) p, L1 of the table, ASME B1.20.1 (from memory);
last passes of a wide tool: an insert catalogue (.05 mm at least).
"""
import csv
import math
import os
import re

# Outside diameter of the pipe and L1 by hand, inches.
PIPE = {"1/4": (0.540, 0.228), "3/8": (0.675, 0.240), "1/2": (0.840, 0.320), "3/4": (1.050, 0.339), "1": (1.315, 0.400)}


def check(plan, shop, same, bad):
    inch = plan["units"] == "in"
    fine = 2e-6 if inch else 2e-5
    for s in plan["setups"]:
        for op in s["operations"]:
            where = f"{op['number']} {op['verb']} {op['feature'] or ''}".strip()
            if t := op.get("thread"):
                still_in(where, t, plan["units"], shop, same, bad)
                starts_by_gear(where, t, same, bad)
                wide_tool(where, t, plan["units"], same, bad)
                if t["pipe"]:
                    pipe(where, t, 1 if inch else 25.4, same)
            for p in op["positions"]:
                if (p["indicator"] is not None) and "carriage dial" in shop:
                    bad(f"{where}: an indicator beside a carriage dial")
                if i := p["indicator"]:
                    same(where, f"{p['what']} on blocks and indicator", i["blocks"] * i["travel"] + i["reading"], p["carriage"], fine)
                    if not 0 <= i["reading"] < i["travel"]:
                        bad(f"{where}: the indicator reads {i['reading']} of {i['travel']}")
                    # Whole inches or tens of millimetres of the shop's widest indicator.
                    same(where, "travel", i["travel"] % (1.0 if inch else 10.0), 0.0, fine)
            if (op.get("hole") or {}).get("touch"):
                touch(where, op, op["hole"]["touch"], fine, same, bad, plan)
            clock = (op.get("flats") or {}).get("angle_deg")
            if clock is not None and (written := angles(plan)) is not None and not any(abs(a - clock) < 1e-6 for a in written):
                bad(f"{where}: clocked {clock}, which the description has not")
            if u := op.get("undercut"):
                undercut(where, op, u, 1 / 25.4 if inch else 1.0, same, bad)
        clocked(s, plan, shop, same, bad)
        if s.get("packing") is not None:
            # V-blocks of 90 degrees: the axis of a round lies its diameter over the root of two above the bottom.
            same(f"setup {s['number']}", "packing under a V-block", s["packing"], abs(s["grip"]["diameter"] - s["also"]["diameter"]) / math.sqrt(2), fine)
        if (t := s.get("thrown")) and t["packing_flat"] is not None:
            # Plain geometry of three jaws, one packed (R. Thibault, Turning an eccentric hole in a 3-jaw chuck, 2000).
            r, e = s["grip"]["diameter"] / 2, t["throw"]
            same(f"setup {s['number']}", "packing under flat tips", t["packing_flat"], 1.5 * e, fine)
            same(f"setup {s['number']}", "packing under narrow tips", t["packing_narrow"], 1.5 * e - r + math.sqrt(r * r - 0.75 * e * e), fine)


def lying(marks, plan, same, bad):
    """Lines scribed lying: half the round below what the gauge reads over it, edges half the width beside, flats as deep as they are."""
    exactly = 2e-6 if plan["units"] == "in" else 2e-5
    ops = {o["feature"]: o for s in plan["setups"] for o in s["operations"] if o["verb"] in ("mill", "drill") and not o["inside"]}
    sizes = {o["to_diameter"] for s in plan["setups"] for o in s["operations"] if o["to_diameter"]} | {plan["stock"]["across"] if plan["stock"] else 0.0}
    sizes |= {l["max"] for s in plan["setups"] for o in s["operations"] for l in [o["limits"]] if l}
    for i, m in enumerate((marks.get("lying") or {}).get("marks", []), 1):
        here = f"mark {m['label']}"
        same(here, "label", float(m["label"][1:]), i, 0)
        same(here, "below the top", m["below_top"], m["on_diameter"] / 2 - m["above_axis"], exactly)
        if min(abs(d - m["on_diameter"]) for d in sizes) > exactly:
            bad(f"{here}: on {m['on_diameter']}, which nothing is turned to")
        op = ops.get(m["feature"])
        if not op:
            bad(f"{here}: nothing is milled or drilled at {m['feature']}")
            continue
        if "keyseat" in op:
            key = op["keyseat"]
            beside = min((0.0, key["width"] / 2, -key["width"] / 2), key=lambda x: abs(x - m["above_axis"]))
            same(here, "middle or edge", m["above_axis"], beside, exactly)
            if m["prick"] != (beside == 0.0):
                bad(f"{here}: pricked on an edge, or not in the middle")
            same(here, "begins", m["from"], key["slot"]["from"], exactly)
            same(here, "ends", m["to"], key["slot"]["to"], exactly)
        elif "flats" in op:
            same(here, "depth of the flat", m["below_top"], op["flats"]["depth"], exactly)
            same(here, "begins", m["from"], op["flats"]["along"]["from"], exactly)
            same(here, "ends", m["to"], op["flats"]["along"]["to"], exactly)
        else:
            center = next(p["from_datum"] for p in op["positions"] if p["what"] == "hole centre")
            same(here, "middle of the hole", m["above_axis"], 0.0, exactly)
            same(here, "along", m["from"], center, exactly)
            same(here, "along", m["to"], center, exactly)
            if not m["prick"]:
                bad(f"{here}: a hole's middle that is not pricked")
        if read := m["on_instrument"]:
            to_mm = {"in": 25.4, "mm": 1.0}
            worked = m["below_top"] * to_mm[plan["units"]] / to_mm[read["units"]]
            same(here, "on the gauge", read["size"], worked, 5.1e-5 if read["units"] == "in" else 5.1e-4)
        if m["angle_deg"] is not None and (written := angles(plan)) is not None and not any(abs(a - m["angle_deg"]) < 1e-6 for a in written + [0.0]):
            bad(f"{here}: at {m['angle_deg']} degrees, which the description has not")


def still_in(where, t, units, shop, same, bad):
    i = t["still_in"]
    if not i:
        if t["wire"]:
            bad(f"{where}: wires, and not what a reading is worth")
        return
    diameter = (shop.get("cross dial") or {}).get("reads", "").strip() == "diameter"
    a_side = 0.5 / math.cos(math.radians(t["compound"]["angle"])) if t["compound"] else 1.0 if diameter else 0.5
    same(where, "infeed for a length over wires", i["factor"], a_side, 1e-6)
    if i["by"] != ("compound" if t["compound"] else "cross dial"):
        bad(f"{where}: the rest goes in by the {i['by']}")
    to_mm = {"in": 25.4, "mm": 1.0}
    same(where, "infeed on the dial", i["factor_shown"], a_side * to_mm[i["aim_units"]] / to_mm[i["dial_units"]], 1.1e-6)
    limits = t["over_on_instrument"] or t["over_wires"]
    within = 5.1e-5 if i["aim_units"] == "in" else 5.1e-4
    same(where, "reading aimed at", i["aim"], (limits["min"] + limits["max"]) / 2, within)
    same(where, "unit of that reading", to_mm[i["aim_units"]], to_mm[(t["over_on_instrument"] or {}).get("units", units)], 0)


def starts_by_gear(where, t, same, bad):
    teeth = (t["indexing"] or {}).get("teeth")
    if not teeth:
        return
    same(where, "teeth from start to start", teeth["on"] * t["indexing"]["starts"], teeth["of"], 0)
    first = re.match(r"wheels (\d+) drives", t["gearbox"] or "")
    same(where, "teeth of the first wheel", teeth["of"], int(first.group(1)) if first else 0, 0)


def wide_tool(where, t, units, same, bad):
    """Trapezoid and square forms: equal areas that end fine, or else the last two cuts .10 and .05 mm (.004 and .002 in) a side."""
    if not re.match(r"Tr|.*ACME|.*[Ss]quare", t["designation"]) or len(t["passes"]) < 4:
        return
    before, last = (0.004, 0.002) if units == "in" else (0.1, 0.05)
    along = math.cos(math.radians(t["compound"]["angle"])) if t["compound"] else 1.0
    depths = [0.0] + [p * along for p in t["passes"]]
    steps = [b - a for a, b in zip(depths, depths[1:])]
    exactly = 3e-6 if units == "in" else 3e-5
    same(where, "whole depth", depths[-1], t["depth"], exactly)
    if fine_end(steps, units):
        same(where, "last cut but one", steps[-2], before, exactly)
        if steps[-3] < before - exactly:
            bad(f"{where}: held back for nothing, cuts of {steps[-3]} are fine")
    elif steps[-1] > before + exactly:
        bad(f"{where}: the last cut is {steps[-1]}")
    most = 0.010 if units == "in" else 0.25
    same(where, "first cut", min(steps[0], most), steps[0], exactly)


def fine_end(steps, units):
    """Whether the last two cuts are the fine ones."""
    return abs(steps[-1] - (0.002 if units == "in" else 0.05)) < (3e-6 if units == "in" else 3e-5)


def touch(where, op, t, fine, same, bad, plan):
    same(where, "half of the round and of the drill", t["with_drill"] - t["half_round"], op["hole"]["drills"][-1] / 2, fine)
    center = next((p for p in op["positions"] if p["what"] == "hole centre"), None)
    if center:
        same(where, "along", t["along"], center["from_datum"], fine)
        same(where, "along from the far face", t["from_far_face"], center["from_far_end"], fine)
    there = [o for s in plan["setups"] for o in s["operations"]
             if o["to_diameter"] and o["span"] and min(o["span"].values()) <= t["along"] <= max(o["span"].values())]
    # What is aimed at is told in the sheet's own digits; the round is the middle of its limits.
    sizes = [o["to_diameter"] for o in there] + [(o["limits"]["min"] + o["limits"]["max"]) / 2 for o in there if o["limits"]]
    sizes += [plan["stock"]["across"]] if plan["stock"] else []
    if min(abs(d / 2 - t["half_round"]) for d in sizes) > fine:
        bad(f"{where}: half of a round of {2 * t['half_round']}, which nothing is there")


def angles(plan):
    """The angles written."""
    path = plan.get("file") or ""
    if not os.path.isfile(path):
        return None
    text = open(path, encoding="utf-8").read()
    return [float(a) for a in re.findall(r"angle:\s*([\d.]+)\s*°?", text)]


def clocked(setup, plan, shop, same, bad):
    written = angles(plan)
    for op in setup["operations"]:
        c = op["clocked"]
        if not c:
            continue
        where = f"{op['number']} {op['verb']} {op['feature']}"
        if written is not None and not any(abs((b - a) % 360 - c["turn_deg"]) < 1e-6 for a in written for b in written):
            bad(f"{where}: turned {c['turn_deg']} degrees, by which no two angles of the description differ")
        if crank := c["crank"]:
            ratio, circles = shop.get("head", (40, []))
            turns = crank["turns"] + (crank["spaces"] / crank["circle"] if crank["circle"] else 0)
            same(where, "turns of the crank", turns, ratio * c["turn_deg"] / 360, 1e-9)
            if crank["circle"] and crank["circle"] not in circles:
                bad(f"{where}: a circle of {crank['circle']}, which the plate has not")
            if crank["circle"]:
                least = min(n for n in circles if abs(ratio * c["turn_deg"] / 360 * n % 1) < 1e-9)
                same(where, "smallest circle that does", crank["circle"], least, 0)


def undercut(where, op, u, to_part, same, bad):
    named = re.match(r"DIN 509 ([EF]) ([\d.]+)x([\d.]+)", u["says"])
    if not named:
        return
    folder = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "reference", "din509.csv")
    rows = csv.DictReader(l for l in open(folder, encoding="utf-8") if not l.startswith("#"))
    row = next(r for r in rows if (r["form"], float(r["r"]), float(r["t1"])) == (named.group(1), float(named.group(2)), float(named.group(3))))
    exactly = 1e-6 if to_part != 1 else 1e-5
    same(where, "radius", u["radius"], float(row["r"]) * to_part, exactly)
    same(where, "width", u["width"], float(row["f"]) * to_part, exactly)
    # DIN 509: depth +0.1 (of t1), as the standard prints it.
    same(where, "least depth", u["depth_a_side"]["min"], float(row["t1"]) * to_part, exactly)
    same(where, "greatest depth", u["depth_a_side"]["max"], (float(row["t1"]) + (0.05 if float(row["t1"]) < 0.2 else 0.1)) * to_part, exactly)
    for key, head in (("face_depth", "t2"), ("face_height", "g")):
        if (u[key] is None) != (not row[head]):
            bad(f"{where}: {key} {u[key]}, the standard {row[head] or 'none'}")
        if u[key] is not None:
            same(where, key, u[key], float(row[head]) * to_part, exactly)
    # The seat less twice the depth.
    same(where, "seat less twice the depth", op["from_diameter"] - op["to_diameter"],
         u["depth_a_side"]["min"] + u["depth_a_side"]["max"], 1.1e-4 if to_part != 1 else 1.1e-3)


def pipe(where, t, to_part, same):
    found = re.match(r"([\d/]+)-([\d.]+) NPT", t["designation"])
    if not found or found.group(1) not in PIPE:
        return
    p, (d, l1) = t["pipe"], PIPE[found.group(1)]
    pitch = 1 / float(found.group(2))
    e0 = d - (0.05 * d + 1.1) * pitch
    exactly = 2e-5 * to_part
    same(where, "small end of the pipe thread", (p["small_end"]["min"] + p["small_end"]["max"]) / 2, e0 * to_part, exactly)
    same(where, "its limits, a turn either way", p["small_end"]["max"] - p["small_end"]["min"], 2 * pitch / 16 * to_part, exactly)
    same(where, "gauge plane", p["gauge_plane"], (e0 + l1 / 16) * to_part, exactly)
    same(where, "gauge length", (p["gauge_length"]["min"] + p["gauge_length"]["max"]) / 2, l1 * to_part, exactly)
    same(where, "gauge length, a turn either way", p["gauge_length"]["max"] - p["gauge_length"]["min"], 2 * pitch * to_part, exactly)
    same(where, "a turn", p["turn"], pitch * to_part, exactly)
    same(where, "turns by hand", p["turns"], l1 / pitch, 2e-3)
    same(where, "useful thread", p["useful_length"], (0.8 * d + 6.8) * pitch * to_part, 1e-4 * to_part)
