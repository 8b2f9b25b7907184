"""The bar, worked again from the description and the shop file: how long to saw it, what is left of it, what stands behind the jaws; the usual center hole; the room
before a tailstock center; minutes of the whole plan. Used by figures_check.py.

What a face, a saw and a grip take: 1/32 in or 0.8 mm, a diameter up to .750 in or 19 mm; a parting tool 1/8 in or 3 mm where the shop lists none; faces of what is
cut from the bar .020 in or 0.5 mm; an end is cleaned by 1/8 in or 3.2 mm at most (common practice, no source; the check stock-length says so).
Mass is density by volume of the bar as the description states it. The densities are typed from memory (kg/m3; steel makers' data sheets and engineering tables: free-cutting and
low-carbon bar 7870, medium carbon and 4140 7850, austenitic stainless 8000; other tables have 7850 for all but the stainless); 1 lb = 0.45359237 kg (1959).
A 60° center meets a tool at the root (root - mouth) / (2 tan 30°) past the face (plain geometry).
"""
import math
import re

import order_check
from figures_written import ISO_2768_M
from figures_written import NUMBER as SIZE
from figures_written import value
from part_written import Part

DENSITY = {"1018": 7870, "12L14": 7870, "1045": 7850, "C45": 7850, "4140": 7850, "304": 8000, "1.4404": 8000}
# What an unknown metal is taken for.
STEEL = 7850
POUND = 0.45359237


class Bar:
    def __init__(self, plan, shop, same, bad):
        self.plan, self.same, self.bad = plan, same, bad
        self.inch = plan["units"] == "in"
        self.fine = 2e-6 if self.inch else 2e-5
        try:
            self.part = Part(open(plan["file"], encoding="utf-8").read())
        except (OSError, KeyError, StopIteration):
            self.part = None
        own = shop.get("units", plan["units"])
        self.from_shop = 1.0 if own == plan["units"] else (1 / 25.4 if self.inch else 25.4)
        parting = [float(w) for w in shop.get("parting", [])]
        self.kerf = min(parting) * self.from_shop if parting else self.pick(0.125, 3.0)
        self.ops = [o for s in plan["setups"] for o in s["operations"]]

    def pick(self, inches, millimetres):
        return inches if self.inch else millimetres

    def longest(self):
        """The largest overall allowed."""
        text = re.sub(r"#.*", "", open(self.plan["file"], encoding="utf-8").read())
        own = re.search(r"^overall:(.*)$", text, re.M).group(1)
        general = re.search(r"lengths:\s*±\s*([\d.]+)", text)
        if re.search(r"[±+]|\.\.", own) or not general:
            return self.part.limits(own)[1] if re.search(r"[±+]|\.\.", own) else self.part.overall + self.iso_2768(text)
        return self.part.overall + float(general.group(1))

    def iso_2768(self, text):
        return next((half for most, half in ISO_2768_M if self.part.overall <= most), 0.0) if "2768-m" in text else 0.0

    def check(self):
        if self.part is None:
            return
        grip = self.grip()
        face = self.pick(1 / 32, 0.8)
        parted = next((o for o in self.ops if o["verb"] == "part off"), None)
        if w := self.plan.get("saw_to"):
            if self.plan["stock"]:
                self.bad("a saw length beside a stated bar")
            worked = [self.longest(), 2 * face] + ([self.kerf, grip] if self.part.part_off else []) + [face]
            for told, length in zip(w["sum"], worked):
                self.same("saw to", told["what"], told["length"], length, self.fine)
            self.same("saw to", "how many terms", len(w["sum"]), len(worked), 0)
            step = self.pick(1 / 16, 1.0)
            self.same("saw to", "length", w["length"], math.ceil(sum(worked) / step - 1e-9) * step, self.fine)
        elif not self.plan["stock"]:
            self.bad("no bar is stated and no saw length told")
        left = self.plan.get("remains")
        if bool(left) != bool(parted and self.plan["stock"]):
            self.bad(f"remains {left}, parted off: {bool(parted)}")
        if left:
            faced = min(self.pick(0.020, 0.5), self.plan["stock"]["length"] - self.part.overall)
            length = self.plan["stock"]["length"] - faced - self.part.overall - self.pick(0.020, 0.5) - self.kerf
            each = self.longest() + 2 * face + self.kerf
            self.same("remains", "length", left["length"], length, self.fine)
            self.same("remains", "grip", left["grip"], grip, self.fine)
            self.same("remains", "each", left["each"], each, self.fine)
            self.same("remains", "more", left["more"], max(math.floor((length - grip) / each + 1e-9), 0), 0)
        self.weighs()
        self.wants(face, grip)
        self.behind_jaws(parted)
        self.centers()
        for op in self.ops:
            if off := (op.get("thread") or {}).get("runs_off"):
                self.runs_off(op, off)

    def weighs(self):
        """Density, kilograms and pounds, each to the digits that are told: three, none behind the point from 20 on."""
        told, text = self.plan.get("bar"), self.text()
        if bool(told) != bool(re.search(r"^stock:", text, re.M)):
            self.bad(f"bar {told}, and the description says otherwise")
        if not told:
            return
        shape, size, bore, long = re.search(rf"^stock:\s*([a-z]*)\s*({SIZE})(?:/({SIZE}))?\s*x\s*({SIZE})", text, re.M).groups()
        across, inside, length = (value(n) * (25.4 if self.inch else 1) / 1000 if n else 0.0 for n in (size, bore, long))
        area = {"": math.pi / 4, "round": math.pi / 4, "tube": math.pi / 4, "square": 1.0, "hex": math.sqrt(3) / 2, "hexagon": math.sqrt(3) / 2}[shape]
        metal = re.search(r"^material:\s*(\S+)", text, re.M)
        density = DENSITY.get(metal.group(1) if metal else "", STEEL)
        kg = density * length * area * (across ** 2 - inside ** 2)
        self.same("bar", "density", told["density_kg_m3"], density, 1e-9)
        self.same("bar", "kilograms", self.plan["bar_kg"], kg, 0.00051)
        for key, unit in (("mass", "lb" if self.inch else "kg"), ("mass_other", "kg" if self.inch else "lb")):
            own = kg / (POUND if unit == "lb" else 1)
            digits = 2 if own < 10 else 1 if own < 20 else 0
            self.same("bar", key, told[key], own, 0.501 * 10.0 ** -digits)
            if told[f"{key}_unit"] != unit or abs(told[key] * 10 ** digits - round(told[key] * 10 ** digits)) > 1e-6:
                self.bad(f"bar: {key} {told[key]} {told[f'{key}_unit']}")

    def wants(self, face, grip):
        """Longest overall, a face at either end; of what is cut from its bar the parting tool and what holds it. Each up to a digit that is printed."""
        told = self.plan.get("bar")
        if not told:
            return
        step = self.pick(0.001, 0.01)
        terms = [self.longest(), 2 * face] + ([self.kerf, grip] if self.part.part_off else [])
        worked = [math.ceil(float(t) / step - 1e-6) * step for t in terms]
        self.same("saw", "how many terms", len(told["wants"]), len(worked), 0)
        for row, length in zip(told["wants"], worked):
            self.same("saw", row["what"], row["length"], length, self.fine)
        self.same("saw", "at least", told["saw_least"], sum(worked), self.fine)

    def text(self):
        return "\n".join(re.split(r"(?:^|\s)#", l)[0] for l in open(self.plan["file"], encoding="utf-8").read().splitlines())

    def grip(self):
        """A diameter of the bar, up to what is always enough."""
        bar = self.plan["stock"]["across"] if self.plan["stock"] else self.largest()
        if self.plan["stock"] and self.plan["stock"]["shape"] in ("hexagon", "square"):
            bar *= {"hexagon": 2 / math.sqrt(3), "square": math.sqrt(2)}[self.plan["stock"]["shape"]]
        return min(bar, self.pick(0.75, 19.0))

    def largest(self):
        return max(self.part.size(f.main) for f in self.part.sections if f.kind == "turn")

    def ends(self, parted):
        """Where the sawn bar begins and ends, from the datum face."""
        sawn = self.plan["stock"]["length"] if self.plan["stock"] else None
        if sawn is None:
            return None
        over = sawn - self.part.overall
        if parted:
            faced = min(self.pick(0.020, 0.5), over)
            out = next(s["works"] for s in self.plan["setups"] if parted in s["operations"])
            return (-faced, sawn - faced) if out == "datum" else (self.part.overall - sawn + faced, self.part.overall + faced)
        clean = min(over / 2, self.pick(0.125, 3.2))
        return -clean, self.part.overall + over - clean

    def behind_jaws(self, parted):
        ends = self.ends(parted)
        faced = set()
        for s in self.plan["setups"]:
            if s["behind_jaws"] is not None and ends:
                start = 0.0 if "datum" in faced else ends[0]
                end = self.part.overall if "far" in faced else ends[1]
                grip = s["grip"]
                low, high = sorted((grip["from"], grip["to"]))
                worked = end - high if s["datum_end"] == "tailstock" else low - start
                self.same(f"setup {s['number']}", "behind the jaws", s["behind_jaws"], max(worked, 0.0), self.fine)
            for op in s["operations"]:
                if op["verb"] == "face":
                    faced.add(op["end"] or s["works"])
                if op["verb"] == "part off":
                    far = s["works"] == "datum"
                    over = self.pick(0.020, 0.5)
                    ends = (ends[0], self.part.overall + over) if far else (-over, ends[1])

    def centers(self):
        """A center hole that the drawing does not size is the usual one for the diameter at its end."""
        for op in self.ops:
            usual = (op.get("center") or {}).get("usual_for")
            if usual is None:
                continue
            section = self.part.sections[0 if op["end"] == "datum" else -1]
            if section.kind == "turn" and re.match(r"[\d.]", section.main):
                self.same(f"{op['number']} center", "usual for", usual, self.part.size(section.main), self.fine)

    def acme(self, t):
        """Basic minor diameter: the nominal less the pitch and .020 (.010 from 10 to the inch on)."""
        size = re.match(r"([\d/. ]+?)-", t["designation"]).group(1)
        return self.part.size(size) - t["pitch"] - self.pick(*((0.020, 0.508) if t["pitch"] > self.pick(0.1, 2.54) else (0.010, 0.254)))

    def runs_off(self, op, off):
        where, t = f"{op['number']} thread {op['feature']}", op["thread"]
        setup = next(s for s in self.plan["setups"] if op in s["operations"])
        # A rough hole for the spot of a steady rest is faced away: the true one is the last.
        holes = [c["center"]["mouth_diameter"] for c in self.ops if "center" in c and c["end"] == setup["works"] and not c["throw"]]
        mouth = holes[-1] if holes else None
        if mouth is None:
            return self.bad(f"{where}: before a center, and no center hole is at that end")
        pd = t["pitch_diameter"]
        if re.search("ACME", t["designation"]):
            # ASME B1.5 (from memory): the minor diameter's tolerance is one and a half of the pitch diameter's.
            root = self.acme(t) - 1.5 * (pd["max"] - pd["min"])
        elif t["designation"].startswith("Tr"):
            # ISO 2903, 2904 (from memory): nominal, pitch and twice the clearance less; then the allowance, and one and a quarter of the pitch diameter's tolerance.
            size, pitch = self.part.size(re.match(r"Tr ?([\d.]+)", t["designation"]).group(1)), t["pitch"]
            size, mm = (size / 25.4, 25.4) if self.inch else (size, 1.0)
            clear = (0.15 if pitch * mm < 2 else 0.25 if pitch * mm <= 5 else 0.5 if pitch * mm <= 12 else 1.0) / mm
            root = size - pitch - 2 * clear - (size - pitch / 2 - pd["max"]) - 1.25 * (pd["max"] - pd["min"])
        else:
            # A sharp V's flank reaches .64952 P below the pitch line on the diameter (three eighths of H twice: plain geometry).
            root = pd["min"] - 0.649519 * t["pitch"]
        past = max((root - mouth) / (2 * math.tan(math.pi / 6)), 0.0)
        self.same(where, "past the face", off["past_face"], past, self.pick(1e-4, 2e-3))
        if off["seconds"] is not None:
            end = next(p["carriage"] for p in op["positions"] if p["what"] == "runs off")
            rpm = op["rpm"] or op["wanted_rpm"]
            self.same(where, "seconds before the center", off["seconds"], (max(end, 0.0) + past) / t["lead"] * 60 / rpm, 0.0505 + (0.01 if not op["rpm"] else 0))


def whole(plan, same, bad):
    """Counts and minutes of the plan: its minutes by the steps of its own order, each at its price (order_check.py proves that no order is cheaper)."""
    c = plan["certificate"]
    for key, severity in (("errors", "error"), ("warnings", "warning")):
        same("plan", key, plan[key], sum(f["severity"] == severity and not f["accepted"] for f in plan["findings"]), 0)
    steps = order_check.replay(order_check.Rules(c), c["order"])
    same("plan", "cost", plan["cost"], steps or 0.0, 0.006)
    if plan["proven_optimal"]:
        same("plan", "lower bound", plan["lower_bound"], plan["cost"], 0.006)
    # What no order costs less than does not count cuts eased where the work is slender (DEVELOPERS.md): there it lies further below.
    eased = any(w["rule"] == "deflection" and "at most" in w["reason"] for x in plan["setups"] for o in x["operations"] for w in o["why"])
    if not (0.6 if eased else 0.9) * plan["cost"] <= plan["floor"] <= plan["cost"] + 1e-6:
        bad(f"floor {plan['floor']} of {plan['cost']}")
