"""What the description says, held against a plan: bar, chamfers, and how wide each pair of limits is. Used by figures_check.py.

Only the few lines needed are read, from the file that the plan names; where it is not there nothing of this is checked.
IT grades: ISO 286-1 (from memory; tests/reference has them from another printing). ISO 2768-1, class m, linear sizes (from memory). Densities: engineering tables, kg/m3.
"""
import math
import os
import re

NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d*\.\d+|\d+)"
IT = {  # most millimetres of the range: IT5, 6, 7, 8, 9, 10, 11, 12, 13 in micrometres
    3: (4, 6, 10, 14, 25, 40, 60, 100, 140), 6: (5, 8, 12, 18, 30, 48, 75, 120, 180), 10: (6, 9, 15, 22, 36, 58, 90, 150, 220),
    18: (8, 11, 18, 27, 43, 70, 110, 180, 270), 30: (9, 13, 21, 33, 52, 84, 130, 210, 330), 50: (11, 16, 25, 39, 62, 100, 160, 250, 390),
    80: (13, 19, 30, 46, 74, 120, 190, 300, 460), 120: (15, 22, 35, 54, 87, 140, 220, 350, 540)}
# Minor diameter of an inside thread, by its designation's end: ISO 965-1 grade 6, ASME B1.1 class 2B (from memory; tests/reference has other printings).
INSIDE = {"M6": 0.236, "M8": 0.265, "x1.5-6H": 0.300, "1 1/4-7 UNC-2B": 0.028, "1/4-20 UNC-2B": 0.011}
ISO_2768_M = ((3, 0.1), (6, 0.1), (30, 0.2), (120, 0.3), (400, 0.5), (1000, 0.8))
DENSITY = {"1018": 7870, "1045": 7850, "C45": 7850, "4140": 7850, "12L14": 7870, "1.4404": 8000}


def value(text):
    """1 1/2, 41/64, .093."""
    return sum(int(w.split("/")[0]) / int(w.split("/")[1]) if "/" in w else float(w) for w in text.split())


class Written:
    def __init__(self, plan):
        path = plan.get("file") or ""
        self.here = os.path.isfile(path)
        self.inch = plan["units"] == "in"
        self.text = ""
        if self.here:
            self.text = "\n".join(re.split(r"(?:^|\s)#", l)[0] for l in open(path, encoding="utf-8").read().splitlines())
        self.places = {value(m) for m in re.findall(rf"(?:to|from|at|overall):\s*({NUMBER})", self.text)}

    def stock(self):
        """Across and long."""
        m = re.search(rf"^stock:\s*(?:hexagon|square|tube)?\s*({NUMBER})\s*x\s*({NUMBER})", self.text, re.M)
        return (value(m.group(1)), value(m.group(2))) if m else None

    def density(self):
        m = re.search(r"^material:\s*(\S+)", self.text, re.M)
        return DENSITY.get(m.group(1)) if m else None

    def chamfers(self):
        """Leg and angle to the axis; of a countersink by its mouth the angle alone."""
        found = [(value(a), float(b)) for a, b in re.findall(rf"chamfer:\s*({NUMBER})\s*x\s*({NUMBER})", self.text)]
        return found + [(None, half) for _, half in self.mouths()]

    def mouths(self):
        """Diameter and half of the included angle of countersinks by their mouth."""
        return [(value(a), float(b) / 2) for a, b in re.findall(rf"(?:chamfer|countersink):\s*[Ø⌀]({NUMBER})\s*x\s*({NUMBER})", self.text)]

    def bands(self):
        """How wide limits may be: what stands in the text, and what its codes mean for its sizes."""
        t = self.text.replace("−", "-")
        out = {2 * value(n) for n in re.findall(rf"±\s*({NUMBER})", t)}
        out |= {value(a) + value(b) for a, b in re.findall(rf"\+\s*({NUMBER})\s*/\s*[-+]?({NUMBER})", t)}
        out |= {round(value(b) - value(a), 9) for a, b in re.findall(rf"({NUMBER})\.\.({NUMBER})", t)}
        to_part = 1 / 25.4 if self.inch else 1.0
        for row in IT.values():
            for code, um in zip(range(5, 14), row):
                if re.search(rf"\b[a-zA-Z]{{1,2}}{code}\b", t):
                    out.add(um / 1000 * to_part)
        out |= {band for name, band in INSIDE.items() if name in t}
        if "o-ring" in t:
            # A gland is dimensioned to .002 in either way (AS568 practice), whatever the unit.
            out.add(0.004 if self.inch else 0.1016)
        if "knurl" in t:
            # A blank near enough for whole teeth (common practice, no source).
            out.add(0.002 if self.inch else 0.05)
        if "2768-m" in t:
            out |= {2 * half for _, half in ISO_2768_M}
        return out


def drawn_sizes(plan):
    """Diameters of sections as drawn, and the bar's."""
    w = Written(plan)
    sizes = [value(n) for n in re.findall(rf"turn:\s*({NUMBER})(?!\s*mm)", w.text)]
    return sizes + ([w.stock()[0]] if w.here and w.stock() else [])


def check(more, plan, same, bad):
    w = Written(plan)
    if not w.here:
        return
    fine = 2e-6 if w.inch else 2e-5
    stock, kg = plan.get("stock"), plan.get("bar_kg")
    if stock and w.stock():
        same("stock", "across", stock["across"], w.stock()[0], fine)
        same("stock", "length", stock["length"], w.stock()[1], fine)
    if stock and kg and stock["shape"] == "round" and w.density():
        m = 0.0254 if w.inch else 0.001
        same("stock", "mass", kg, w.density() * math.pi / 4 * (stock["across"] * m) ** 2 * stock["length"] * m, 0.0006)
    ops = [o for s in plan["setups"] for o in s["operations"]]
    bands = w.bands()
    for o in ops:
        if "chamfer" in o and w.chamfers():
            c = o["chamfer"]
            if not any((leg is None or abs(leg - c["leg"]) <= fine) and abs(angle - c["angle_deg"]) < 1e-6 for leg, angle in w.chamfers()):
                bad(f"{o['number']} chamfer: {c['leg']} at {c['angle_deg']} stands nowhere in the description")
    holes = {d for o in ops if o["inside"] for d in (o["to_diameter"], o["from_diameter"]) if d}
    for o in ops:
        c = o.get("chamfer") or {}
        if c.get("mouth") is not None:
            if not any(abs(m - c["mouth"]) <= fine and abs(h - c["angle_deg"]) < 1e-6 for m, h in w.mouths()):
                bad(f"{o['number']} chamfer: a mouth of {c['mouth']} stands nowhere in the description")
            under = c["mouth"] - 2 * c["leg"] * math.tan(math.radians(c["angle_deg"]))
            same(f"{o['number']} chamfer", "hole under the mouth", min(abs(under - d) for d in holes), 0.0, 10 * fine)
    cut = {round(o["limits"]["max"] - o["limits"]["min"], 9) for o in ops if "thread" in o and o["limits"]}
    for o in ops:
        for block, keys in (("thread", ("blank", "over_wires", "pitch_diameter")), ("keyseat", ("across_bottom_limits", "depth_limits")), ("flats", ("across_limits",))):
            for key in keys:
                lim = (o.get(block) or {}).get(key)
                if lim:
                    cut.add(round(lim["max"] - lim["min"], 9))
        # Held by figures_recipes.py: a ring gauge's turn either way, twice the depth of an undercut.
        if pipe := (o.get("thread") or {}).get("pipe"):
            cut.add(round(pipe["gauge_length"]["max"] - pipe["gauge_length"]["min"], 9))
        if under := o.get("undercut"):
            cut.add(round(2 * (under["depth_a_side"]["max"] - under["depth_a_side"]["min"]), 9))
    cut |= {round(f[k]["max"] - f[k]["min"], 9) for f in plan.get("fits", []) for k in ("seat", "bore") if f.get(k)}
    wide = lambda lim: lim["max"] - lim["min"]
    for o in ops:
        lim = o["limits"]
        if lim and o["for_rest"]:
            # A spot for the rest: two light cuts of a thirty-second a side, .8 mm, at most (common practice, no source).
            two = 4 * (1 / 32 if plan["units"] == "in" else 0.8)
            if not 0 <= wide(lim) <= two / 2 + 1e-9 or not 0 < o["from_diameter"] - lim["max"] <= two / 2 + 2e-3 or abs(o["to_diameter"] - lim["max"]) > 1e-9:
                bad(f"{o['number']} {o['verb']}: limits {lim} of a spot")
            continue
        if lim and o["verb"] in ("finish", "turn", "groove", "bore", "ream", "polish") and "thread" not in o:
            near = min((abs(wide(lim) - b) for b in bands | cut), default=0.0)
            if near > max(5 * fine, 0.03 * wide(lim)):
                bad(f"{o['number']} {o['verb']}: limits {lim} are {wide(lim):.6f} apart, which nothing asks")
        flats = (o.get("flats") or {}).get("across_limits")
        if flats and min((abs(wide(flats) - b) for b in bands), default=0.0) > 5 * fine:
            bad(f"{o['number']} flats: {flats}")
    for r in plan.get("inspection", []):
        lim = r["limits"]
        if lim and min((abs(wide(lim) - b) for b in bands | cut), default=0.0) > max(5 * fine, 0.03 * wide(lim)):
            bad(f"inspection {r['letters']} ({r['with']}): limits {lim} are {wide(lim):.6f} apart, which nothing asks")
