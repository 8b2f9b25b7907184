"""More numbers of a plan worked again: what an operation needs besides its size and place. Used by figures_check.py.

Sources of the formulas stand at each; the constants of speeds, feeds and minutes are the project's own practice, as its ASSUMED box and
the doc comments tell it ("common practice, no source"), typed here a second time.
"""
import math
import re

from part_written import Part

# Share of the turning speed an operation runs at: the ASSUMED box.
SHARE = {"rough": 1, "finish": 1, "face": 1, "turn": 1, "taper": 1, "bore": 1, "groove": 1 / 4, "chamfer": 1 / 4, "file": 1 / 4, "thread": 1 / 4,
         "knurl": 1 / 2, "center": 4 / 5, "drill": 4 / 5, "ream": 1 / 2, "part off": 1 / 2, "mill": 1}
# Usual feeds, inch and millimetre.
FEED = {"rough": (0.008, 0.2), "finish": (0.003, 0.08), "turn": (0.003, 0.08), "taper": (0.003, 0.08), "bore": (0.003, 0.08), "face": (0.005, 0.12)}
# DIN 332-1 form A, drill and mouth (typed from a maker's chart); an inch size is the same shape.
CENTER_A = {1.0: 2.12, 1.25: 2.65, 1.6: 3.35, 2.0: 4.25, 2.5: 5.3, 3.15: 6.7, 4.0: 8.5, 5.0: 10.6, 6.3: 13.2}
# DIN 332-1 form A: least depth of drill and cone from the face, by the drill (from memory; tests/reference/centers.csv has another printing).
DEPTH_A = {1.0: 1.9, 1.25: 2.3, 1.6: 2.9, 2.0: 3.7, 2.5: 4.6, 3.15: 5.9, 4.0: 7.4, 5.0: 9.2, 6.3: 11.5}
# DIN 332-2: core hole, mouth and depth of the core by the thread (from memory; tests/reference/din332_threaded.csv has another printing).
TAPPED_CENTER = {"M6": (5.0, 21.0), "M8": (6.8, 25.0), "M10": (8.5, 30.0), "M12": (10.2, 37.0), "M16": (14.0, 45.0)}
# Growth of a knurl as a part of its pitch (DIN 82: straight and spiral t/2, raised diamond 0.67 t, sunk 0.33 t).
GROWTH = {"straight": 0.5, "diamond": 0.67}
# ISO 773 (DIN 6885-1): t1 of a keyseat by its width, and what it may be deeper.
DEEPER_MM = {5: 0.1, 6: 0.1, 8: 0.2, 10: 0.2, 12: 0.2}


class More:
    """What the checks share: unit, shop, how to tell a difference."""

    def __init__(self, same, bad, plan, shop):
        self.same, self.bad, self.plan, self.shop = same, bad, plan, shop
        self.units = plan["units"]
        self.inch = self.units == "in"
        self.fine = 2e-6 if self.inch else 2e-5
        self.mm = 25.4 if self.inch else 1.0
        # Lengths of the shop file in the part's unit.
        own = shop.get("units", self.units)
        self.from_shop = 1.0 if own == self.units else (1 / 25.4 if self.inch else 25.4)
        self.bar = self.bar_across()

    def bar_across(self):
        s = self.plan.get("stock")
        if not s:
            return self.bar_taken()
        return s["across"] * {"hexagon": 2 / math.sqrt(3), "square": math.sqrt(2)}.get(s["shape"], 1.0)

    def bar_taken(self):
        """Where no bar is stated."""
        try:
            return Part(open(self.plan["file"], encoding="utf-8").read()).bar
        except (OSError, KeyError, ValueError):
            return None

    def mass(self):
        """Volume by density; densities of the samples' materials from engineering tables, kg/m3."""
        s, kg = self.plan.get("stock"), self.plan.get("bar_kg")
        if not s or kg is None:
            return
        a, long = s["across"] * self.mm / 1000, s["length"] * self.mm / 1000
        area = {"round": math.pi / 4 * a * a, "hexagon": math.sqrt(3) / 2 * a * a, "square": a * a,
                "tube": math.pi / 4 * (a * a - ((s.get("bore") or 0) * self.mm / 1000) ** 2)}[s["shape"]]
        if not 7700 <= kg / (area * long) <= 8050:
            self.bad(f"bar: {kg} kg is no steel of {area * long} m3")

    def turning_speed(self):
        """m/min; none where the handbook's table of materials decides."""
        hss = self.shop.get("hss")
        return None if hss is None else hss * (0.3048 if self.shop["units"] == "in" else 1) * self.share_of_own()

    def share_of_own(self):
        """A shop's one speed is for mild steel (90 ft/min listed); others take it in proportion, at most twice, pre-hardened .6 of that. Practice."""
        m = re.search(r"^material:\s*(.*?)\s*(#.*)?$", open(self.plan["file"], encoding="utf-8").read(), re.M)
        name = m.group(1) if m else ""
        listed = {"4140": 70, "1.4404": 60, "304": 60, "O1": 50, "12L14": 130}
        feet = next((v for k, v in listed.items() if name.startswith(k)), 90)
        return min(feet / 90, 2) * (0.6 if re.search(r"pre-?hard", name) else 1)

    def runs_at(self, op):
        """The diameter that runs at the surface speed."""
        verb = op["verb"]
        if verb == "thread" and not op["inside"]:
            return op["thread"]["blank"]["max"] if "thread" in op else None
        if verb == "center":
            return op["center"]["drill_diameter"] if "center" in op else None
        if verb == "mill":
            return op["keyseat"]["cutter_diameter"] if "keyseat" in op else None
        if verb in ("drill", "ream", "bore") or op["inside"]:
            return op["to_diameter"] or op["from_diameter"]
        return op["from_diameter"]

    def overhung(self, op):
        """Work that stands more than three diameters out of the jaws, with no center and no rest, is turned at half the speed (common practice)."""
        setup = next((s for s in self.plan["setups"] if op in s["operations"]), None)
        if not setup or setup.get("rest") or setup["stick_out"] is None or not setup["grip"] or "center" in setup["holding"]:
            return 1
        return 0.5 if setup["stick_out"] > 3 * setup["grip"]["diameter"] + self.fine else 1

    def speed(self, where, op):
        """rpm = 1000 v / (pi d); a thread that runs out into a relief no faster than leaves 1.5 s in it, 3 s where the half-nuts stay closed."""
        v, d = self.turning_speed(), self.runs_at(op)
        if not op["wanted_rpm"] or not v or not d or op["verb"] not in SHARE:
            return
        rpm = 1000 * v * SHARE[op["verb"]] / (math.pi * d * self.mm)
        block = op.get("thread") or op.get("hole") or {}
        if block.get("relief_time") is not None and op["verb"] == "thread":
            of = block.get("thread") or block
            # Half-nuts that stay closed: 3 s, for two acts.
            closed = (block.get("dial") or block.get("half_nuts") or {}).get("never_open")
            rpm = min(rpm, of["relief"] / of["lead"] * (20 if closed else 40))
        steady = next((s["rest"] for s in self.plan["setups"] if op in s["operations"] and s.get("rest") and s["rest"]["rest"] == "steady"), None)
        if steady:
            # The jaws of a steady rest bear no more than the bar's own turning speed (practice).
            rpm = min(rpm, 1000 * v / (math.pi * steady["diameter"] * self.mm))
        if op["throw"]:
            rpm = min(rpm, self.balance(op["throw"]))
        rpm *= self.overhung(op)
        off = block.get("runs_off")
        if off and off["seconds"] is not None:
            # A left-hand thread runs off toward a center: from its end to where the cone meets the root, as the sheet rounds that.
            end = next(p["carriage"] for p in op["positions"] if p["what"] == "runs off")
            turns = 20 if (block.get("dial") or {}).get("never_open") else 40
            most = (end + off["past_face"]) / block["lead"] * turns
            if most < rpm:
                return self.same(where, "wanted rpm before the center", op["wanted_rpm"], most, 0.06 + (6e-4 if self.inch else 6e-3) / block["lead"] * turns)
        self.same(where, "wanted rpm", op["wanted_rpm"], rpm, 0.06 + rpm * 2e-4)

    def balance(self, throw):
        """Turns a minute at which what lies so far off the axis pulls a quarter of its weight: e w2 = g / 4."""
        return math.sqrt(9.80665 / 4 / (throw * self.mm / 1000)) * 30 / math.pi

    def eccentrics(self):
        """An indicator reads twice the throw; the work sweeps its largest and as much; a second center is scribed the throw above the axis of a round in V-blocks."""
        ops = [o for s in self.plan["setups"] for o in s["operations"]]
        for setup in self.plan["setups"]:
            t, where = setup.get("thrown"), f"setup {setup['number']}"
            cut = [o["throw"] for o in setup["operations"] if o["throw"]]
            if t:
                self.same(where, "throw", t["throw"], cut[0], self.fine)
                self.same(where, "reading", t["reading"], 2 * cut[0], self.fine)
                limits = t["reading_limits"] or {"min": t["reading"], "max": t["reading"]}
                drawn = [r["limits"] for r in self.plan["inspection"] if r["limits"] and r["limits"]["min"] <= cut[0] <= r["limits"]["max"]]
                for end in ("min", "max"):
                    nearest = min(drawn, key=lambda r: abs(2 * r[end] - limits[end]), default={end: t["throw"]})
                    self.same(where, f"reading {end}", limits[end], 2 * nearest[end], self.fine)
                self.same(where, "most rpm", t["most_rpm"], self.balance(cut[0]), 0.06)
                sizes = [self.bar] + [o["to_diameter"] for o in ops if o["to_diameter"]]
                self.same(where, "sweeps", t["sweeps"], min(sizes, key=lambda d: abs(d + 2 * cut[0] - t["sweeps"])) + 2 * cut[0], self.fine)
        for o in ops:
            s = (o.get("center") or {}).get("second")
            if not s:
                continue
            where = f"{o['number']} second center, {o['end']} end"
            d, mouth = s["on_diameter"], o["center"]["mouth_diameter"]
            first = next(c["center"] for c in ops if c["verb"] == "center" and c["end"] == o["end"] and not c["throw"])
            leg = max((c["chamfer"]["leg"] for c in ops if c["verb"] == "chamfer" and c["end"] == o["end"] and "chamfer" in c), default=0)
            self.same(where, "throw", s["throw"], o["throw"], self.fine)
            self.same(where, "axis below the top", s["axis_below_top"], d / 2, self.fine)
            self.same(where, "line below the top", s["line_below_top"], d / 2 - o["throw"], self.fine)
            self.same(where, "between the mouths", s["between_mouths"], o["throw"] - (first["mouth_diameter"] + mouth) / 2, self.fine)
            self.same(where, "to the edge", s["to_edge"], d / 2 - leg - o["throw"] - mouth / 2, self.fine)
            if min(s["between_mouths"], s["to_edge"]) < mouth / 4 - self.fine:
                self.bad(f"{where}: less metal than a quarter of its mouth")
            sizes = [c["limits"] for c in ops if c["limits"] and c["verb"] in ("finish", "turn")]
            if not any(abs(d - (l["min"] + l["max"]) / 2) <= (l["max"] - l["min"]) * 2 + self.fine for l in sizes):
                self.bad(f"{where}: on {d}, which nothing is turned to")

    def relief(self, where, op, lead):
        """Seconds in the relief: its width over the lead is turns."""
        t = op["thread"]
        if t["relief_time"] is not None and t.get("relief") is not None:
            rpm = op["rpm"] or op["wanted_rpm"]
            self.same(where, "time in the relief", t["relief_time"], t["relief"] / lead * 60 / rpm, 0.0501 + (0.002 if not op["rpm"] else 0))

    def feed(self, where, op):
        if op["feed"] is None or op["verb"] not in FEED:
            return
        usual = FEED[op["verb"]][0 if self.inch else 1]
        own = [float(f) * self.from_shop for f in self.shop.get("feeds", [])]
        wanted = max([f for f in own if f <= usual + 1e-9], default=min(own, default=usual))
        self.same(where, "feed", op["feed"], wanted, self.fine)

    def passes(self, where, op):
        """As many as keep each within the deepest; half as deep inside; three at least for a close size."""
        if not op["passes"] or not op["from_diameter"] or not op["to_diameter"]:
            return
        a_side = abs(op["from_diameter"] - op["to_diameter"]) / 2
        deepest = self.shop.get("rough")
        if deepest is not None:
            deepest = float(deepest) * self.from_shop / (2 if op["inside"] else 1)
            # Where the work gives way no cut is deeper than the plan says (by hand: tests/planning/stiff.rs).
            deepest = min(deepest, op.get("lighter") or deepest)
            least = math.ceil(a_side / deepest - 1e-6)
            self.same(where, "passes", op["passes"], max(3 if op["close"] else 1, least), 0)
        if op.get("cut_on_dial") and self.shop.get("cross dial"):
            d = self.shop["cross dial"]
            counted = op["depth_of_cut"] / self.from_shop * (2 if d["reads"].strip() == "diameter" else 1)
            self.dial(where, "a cut on the dial", op["cut_on_dial"], counted, "cross dial")

    def dial(self, where, what, printed, length, which):
        """A reading in the dial's own unit: to its division, and turns with divisions that make it up."""
        d = self.shop.get(which)
        if not d or not printed:
            return
        number = lambda t: eval_number(t)
        division, turn = number(d["division"]), number(d["turn"])
        if printed.get("reading") is not None:
            told = printed["turns"] * turn + printed["divisions"] * division
            # JSON has every length in the part's unit, the dial counts in its own.
            reading = printed["reading"] / self.from_shop
            self.same(where, f"{what}: turns and divisions", told, reading, division / 2 + 1e-6)
            self.same(where, what, reading, length, division / 2 + 1e-6)
            # It is what is set, to the line, or what is meant, rounded to a thousandth of an inch or hundredth of a millimetre.
            step = 0.001 if self.shop["units"] == "in" else 0.01
            nearest = min(abs(reading - told), max(abs(reading - length) - step / 2, 0))
            self.same(where, f"{what}: to a line or to its last digit", nearest, 0.0, 3e-6 if self.shop["units"] == "in" else 6e-5)

    def on_dial(self, where, list_, depths, which, twice):
        for i, (d, depth) in enumerate(zip(list_ or [], depths)):
            self.dial(f"{where}, pass {i + 1}", "on its dial", d, depth / self.from_shop * (2 if twice else 1), which)
        if list_ and len(list_) != len(depths):
            self.bad(f"{where}: {len(list_)} readings for {len(depths)} passes")

    def tool(self, where, op):
        """A grooving tool is one of the drawer, and fits between the walls."""
        widths = [float(w) * self.from_shop for w in self.shop.get("grooving", [])]
        if op["tool_width"] is None or not widths:
            return
        self.same(where, "tool of the drawer", min(abs(w - op["tool_width"]) for w in widths), 0.0, self.fine)
        if op.get("span") and op["tool_width"] > abs(op["span"]["from"] - op["span"]["to"]) + self.fine:
            self.bad(f"{where}: the tool is wider than the groove")

    def knurl(self, where, k):
        """Whole teeth around the blank: teeth x pitch / pi."""
        grain = 0.001 if self.inch else 0.02
        if abs(k["blank"] - k["teeth"] * k["pitch"] / math.pi) > grain / 2 + k["pitch"] / 2 / math.pi:
            self.bad(f"{where}: {k['teeth']} teeth of {k['pitch']} do not go around {k['blank']}")
        self.same(where, "teeth", k["teeth"], round(math.pi * k["blank"] / k["pitch"]), 0)
        self.same(where, "over the points", k["expected"], k["blank"] + k["growth"], self.fine)
        part = next((g for word, g in GROWTH.items() if word in k["says"]), None)
        if part:
            self.same(where, "growth", k["growth"], part * k["pitch"], self.fine + 1e-9)

    def crown(self, where, op, c):
        """A circle: half chord squared = h (2 R - h); each step stands just outside it."""
        r, h = c["radius"], c["height"]
        grain = 0.001 if self.inch else 0.01
        self.same(where, "edge of the dome", c["diameter"], 2 * math.sqrt(h * (2 * r - h)), grain)
        ridge, before, last = 0.0, 0.0, 0.0
        for s in c["steps"] + [{"behind_summit": h, "diameter": c["diameter"]}]:
            z, d = s["behind_summit"], s["diameter"]
            across = 2 * math.sqrt(max(z * (2 * r - z), 0))
            if s["diameter"] != c["diameter"] and not -1e-6 <= d - across <= grain + 1e-6:
                self.bad(f"{where}: step {z} to {d}, the dome is {across} there")
            ridge = max(ridge, math.hypot(d / 2, r - before) - r)
            if z <= last and s is not c["steps"][0]:
                self.bad(f"{where}: steps do not go on from the summit")
            before = last = z
        self.same(where, "ridge", c["ridge"], ridge, grain)

    def opening(self, where, op, c):
        """The mouth of a hole: leg x tan of the angle wider a side (plain geometry), over the hole that is there."""
        a_side = c["leg"] * math.tan(math.radians(c["angle_deg"]))
        self.same(where, "opens a side", c["opens_a_side"], a_side, self.fine)
        # A thread's hole is counted with its minor diameter in the middle of its limits, a bore with its own.
        inside = [o for s in self.plan["setups"] for o in s["operations"] if o["inside"]]
        holes = [d for o in inside for d in (o["to_diameter"], o["from_diameter"]) if d] + [(o["limits"]["min"] + o["limits"]["max"]) / 2 for o in inside if o["limits"]]
        self.same(where, "hole under the opening", min(abs(c["opens_to"] - 2 * a_side - d) for d in holes), 0.0, 10 * self.fine)
        if c["mouth"] if "mouth" in c else None:
            self.same(where, "opens to its mouth", c["opens_to"], c["mouth"], 10 * self.fine)
        if d := c["out_on_dial"]:
            twice = self.shop["cross dial"]["reads"].strip() == "diameter"
            self.dial(where, "out to the mouth", d, a_side / self.from_shop * (2 if twice else 1), "cross dial")

    def chamfer(self, where, op):
        if op["chamfer"].get("opens_to") is not None:
            self.opening(where, op, op["chamfer"])
        leg = op["chamfer"]["leg"]
        rows = {p["what"]: p["from_datum"] for p in op["positions"]}
        if "edge" in rows and "chamfer ends" in rows:
            self.same(where, "leg", abs(rows["edge"] - rows["chamfer ends"]), leg, self.fine)
        if not 0 < op["chamfer"]["angle_deg"] < 90:
            self.bad(f"{where}: an angle of {op['chamfer']['angle_deg']}")

    def center(self, where, c):
        """Form A: its mouth by the standard's list. Every form: the cone of 60 degrees fits within the depth."""
        if c["odd_legs"] is not None:
            self.same(where, "odd-leg calipers", c["odd_legs"], self.plan["stock"]["across"] / 2, self.fine)
        d, mouth = c["drill_diameter"] * self.mm, c["mouth_diameter"] * self.mm
        if c["size"].startswith("A "):
            nearest = min(CENTER_A, key=lambda a: abs(a - d))
            listed = CENTER_A[nearest] * d / nearest
            self.same(where, "mouth", mouth, listed, 0.05 + 0.012 * listed)
            size = eval_number(c["size"][2:]) * (25.4 if "/" in c["size"] else 1)
            self.same(where, "drill", d, size, 0.02)
        if c["depth"] * self.mm + 0.06 < (mouth - d) / 2 / math.tan(math.radians(30)):
            self.bad(f"{where}: its cone is deeper than {c['depth']}")
        if c["size"].startswith("A ") and c["depth"] * self.mm > (mouth - d) / 2 / math.tan(math.radians(30)) + 1.4 * d:
            self.bad(f"{where}: {c['depth']} is deeper than pilot and cone")

        # A metric center is as deep as its list says; an inch one has a pilot as long as it is wide before its cone (a center drill's own shape).
        if c["size"].startswith("A "):
            cone = (mouth - d) / 2 / math.tan(math.radians(30))
            deep = cone + d if "/" in c["size"] else DEPTH_A.get(eval_number(c["size"][2:]))
            if deep is not None:
                self.same(where, "depth", c["depth"] * self.mm, deep, 0.02)
        for thread, (core, deep) in TAPPED_CENTER.items():
            if c["size"].split()[-1] == thread and c["size"].startswith("D"):
                self.same(where, "core", d, core, 0.011)
                self.same(where, "depth of the core", c["depth"] * self.mm, deep, 0.5)

    def hole(self, where, op):
        h = op["hole"]
        if h["percent_of_thread"] is not None and h.get("thread"):
            full = 1.299038 * h["thread"]["pitch"]
            self.same(where, "share of the thread", h["percent_of_thread"], (h["thread"]["nominal"] - op["to_diameter"]) / full * 100, 0.06)
        if h["percent_of_thread"] is not None and not 30 <= h["percent_of_thread"] <= 100:
            self.bad(f"{where}: leaves {h['percent_of_thread']} % of a thread")
        if h.get("thread"):
            starts = h["thread"]["lead"] / h["thread"]["pitch"]
            self.same(where, "starts", starts, max(round(starts), 1), 1e-3)
        if h["tap_turns"] is not None and h.get("thread"):
            self.same(where, "turns of the tap", h["tap_turns"], h["depth"] / h["thread"]["lead"], 0.051)
        if h.get("thread") and op["verb"] in ("thread", "tap") and op["to_diameter"]:
            self.same(where, "nominal", h["thread"]["nominal"], op["to_diameter"], self.fine * 5)
        if h["drills"]:
            # The sheet aims in its own digits; a drill is as large as it is.
            self.same(where, "last drill", h["drills"][-1], op["to_diameter"], 6e-5 if self.inch else self.fine if op["inside"] else 5.1e-4)
            # A third of the size leads, or a third and two thirds (common practice, no source), each a whole thirty-second or half millimetre.
            n, step = len(h["drills"]), 1 / 32 if self.inch else 0.5
            for i, d in enumerate(h["drills"][:-1], 1):
                third = round(h["drills"][-1] * i / 3 / step) * step
                if any(abs(d / (1 if self.inch else 25.4) - own) < 1e-4 for own in self.shop.get("drills", ())) and abs(d - third) <= third / 4 + 1e-4:
                    # One of the shop's own, a quarter off at most (common practice, no source).
                    continue
                self.same(where, f"drill {i} of {n}", d, h["drills"][-1] * i / 3, step / 2 + 1e-5)
                self.same(where, f"drill {i} of the series", d / step, round(d / step), 1e-3)
            least = (0.3125, 0.625) if self.inch else (8.0, 16.0)
            if op["from_diameter"] is None:
                self.same(where, "number of drills", n, 1 + sum(h["drills"][-1] > l + 1e-9 for l in least), 0)
            if sorted(h["drills"]) != h["drills"]:
                self.bad(f"{where}: the drills do not grow")
        if h["infeed"]:
            self.same(where, "last infeed", h["infeed"][-1], (op["to_diameter"] - op["from_diameter"]) / 2, self.fine)
            n, last = len(h["infeed"]), h["infeed"][-1]
            first = h["infeed"][0]
            v = abs(first - last / math.sqrt(n)) < 0.02 * last
            for i, d in enumerate(h["infeed"], 1):
                if v:
                    equal = math.sqrt(first ** 2 + (i - 1) * (last ** 2 - first ** 2) / (n - 1))
                    self.same(f"{where}, pass {i}", "equal areas", d, equal, self.fine * 5)
            if any(b <= a for a, b in zip(h["infeed"], h["infeed"][1:])):
                self.bad(f"{where}: the infeed does not rise")
            twice = (self.shop.get("cross dial") or {}).get("reads", "").strip() == "diameter"
            self.on_dial(where, h.get("on_dial"), h["infeed"], "cross dial", twice)
            if h.get("relief_time") is not None:
                self.same(where, "time in the relief", h["relief_time"], h["thread"]["relief"] / h["thread"]["lead"] * 60 / (op["rpm"] or op["wanted_rpm"]), 0.051)
        if h["depth"] is not None and op["inside"]:
            bottom = [p["carriage"] for p in op["positions"] if p["carriage"] is not None and p["what"] in ("full diameter to", "full thread to", "bottom")]
            if bottom:
                self.same(where, "depth from the face", h["depth"], bottom[0], self.fine)

    def taper(self, where, op, t, at_far):
        a, b = t["checks"][0], t["checks"][1]
        rate = abs(a["diameter"] - b["diameter"]) / abs(a["from_datum"] - b["from_datum"])
        self.same(where, "indicator drop", t["drop"], rate / 2 * (1 if self.inch else 25), self.fine * 20)
        whole = re.match(r"(\d+)° (\d+)′", t["half_angle"])
        self.same(where, "half angle to the last digits", t["half_angle_deg"], math.degrees(math.atan(rate / 2)), 2e-4 if abs(a["diameter"] - b["diameter"]) > 0.05 else 0.02)
        self.same(where, "taper per foot or 100 mm to the last digit", t["per_length"], rate * (12 if self.inch else 100), 6e-4 if self.inch else 6e-3)
        self.same(where, "degrees and minutes", int(whole.group(1)) + int(whole.group(2)) / 60, t["half_angle_deg"], 0.0084)
        # The wall on the operator's side comes toward him where the diameter grows toward the tailstock.
        tail, head = (b, a) if at_far else (a, b)
        grows = tail["diameter"] > head["diameter"]
        if t["swing"] != ("toward you" if grows else "away from you"):
            self.bad(f"{where}: compound swung {t['swing']}")
        if t["tailstock"] is not None and t["tailstock"] != ("away from you" if grows else "toward you"):
            self.bad(f"{where}: tailstock {t['tailstock']}")

    def wires(self, where, t, pitch, half):
        """M = E + W (1 + 1/sin a) - P/2 cot a; with a lead angle the cosecant grows (NBS Handbook H28)."""
        e = t.get("pitch_diameter")
        if not e or not t["over_wires"] or half is None:
            return
        a = math.radians(half)
        within = 1.01e-4 if self.inch else 1.01e-3
        for key in ("max", "min"):
            plain = e[key] + t["wire"] * (1 + 1 / math.sin(a)) - pitch / 2 / math.tan(a)
            slope = math.tan(math.radians(t["lead_angle_deg"]))
            by_lead = e[key] + t["wire"] * (1 + math.sqrt(1 / math.sin(a) ** 2 + slope ** 2 / math.tan(a) ** 2)) - pitch / 2 / math.tan(a)
            printed = t["over_wires"][key]
            self.same(where, f"over wires {key}", printed, plain if abs(printed - plain) < abs(printed - by_lead) else by_lead, within)
        if half != 30.0 and t["lead_angle_deg"] > 4 and abs(t["over_wires"]["max"] - plain) < within and abs(by_lead - plain) > 2 * within:
            self.bad(f"{where}: the lead angle is left out of the reading over wires")

    def keyseat(self, where, k, seat):
        """Across the bottom: largest seat at the least depth, smallest seat at the greatest."""
        if seat is None or k.get("depth_limits") is None:
            return
        r = seat["max"] / 2
        half = k["width"] / 2
        f = r - math.sqrt(r * r - half * half)
        limits, deep = k["across_bottom_limits"], k["depth_limits"]
        within = 3e-5 if self.inch else 6e-4
        self.same(where, "least depth", deep["min"], k["depth_from_top"], within)
        if not self.inch and round(k["width"]) in DEEPER_MM and "Woodruff" not in k["key"]:
            self.same(where, "greatest depth", deep["max"], deep["min"] + DEEPER_MM[round(k["width"])], within)
        if self.inch:
            # ASME B17.2 gives .005 on the depth, B17.1 .015 on what stays across the bottom.
            self.same(where, "greatest depth", deep["max"], deep["min"] + (0.005 if "Woodruff" in k["key"] else 0.015), within)
        self.same(where, "across the bottom, largest", limits["max"], seat["max"] - deep["min"], within)
        # In inches the depth is that at the side, so that a smaller round keeps its own height above it.
        low = seat["min"] / 2
        lost = low - math.sqrt(low * low - half * half) - f if self.inch else 0.0
        self.same(where, "across the bottom, smallest", limits["min"], seat["min"] - deep["max"] - lost, within)

    def fits(self):
        for m in self.plan.get("fits", []):
            where = f"{m['part']} on {m['feature']}"
            self.same(where, "least clearance", m["clearance"]["min"], m["bore"]["min"] - m["seat"]["max"], self.fine)
            self.same(where, "most clearance", m["clearance"]["max"], m["bore"]["max"] - m["seat"]["min"], self.fine)
            w = m["warm"]
            if not w:
                continue
            self.same(where, "room to slide", w["room"], 0.0003 * m["bore"]["min"], self.fine)
            opens = max(-m["clearance"]["min"], 0) + w["room"]
            per_degree = (6.4 if self.inch else 11.5) * 1e-6 * m["bore"]["min"]
            self.same(where, "warmer by", w["rise"], math.ceil(opens / per_degree / 5 - 1e-9) * 5, 5.01)
            if w["most"] not in ((250, 400) if self.inch else (120, 200)):
                self.bad(f"{where}: warmed to {w['most']}")
            if w["enough"] != ((68 if self.inch else 20) + w["rise"] <= w["most"]):
                self.bad(f"{where}: enough is {w['enough']}")

    def holding(self, setup, overall):
        """Jaws lie on the part, and the work stands out as far as their face is from the face at the tailstock."""
        g, out = setup["grip"], setup["stick_out"]
        where = f"setup {setup['number']}"
        if g:
            # What is still to be faced off lies beyond both ends.
            saw = max((self.plan.get("stock") or {}).get("length", 0) - float(overall), 0)
            if not -self.fine - saw <= g["from"] < g["to"] <= float(overall) + saw + self.fine:
                self.bad(f"{where}: grips {g['from']} to {g['to']}")
            if out is not None and setup["works"]:
                face = g["from"] if setup["works"] == "datum" else float(overall) - g["to"]
                self.same(where, "out of the jaws", out, face, self.fine)
            for op in setup["operations"]:
                for p in op["positions"]:
                    # A hole through the work may reach into the chuck: the jaws close on the outside.
                    if p["carriage"] is None or op["inside"]:
                        continue
                    if "feature-in-jaws" in {f["check"] for f in self.plan["findings"]}:
                        continue
                    jaw = g["from"] if setup["datum_end"] == "tailstock" else float(overall) - g["to"]
                    if not -self.fine <= p["carriage"] <= jaw + self.fine:
                        self.bad(f"{where}, {op['number']}: {p['what']} at {p['carriage']} is in the jaws or beyond the center")
            self.grip_length(where, setup, g, float(overall))
        sizes = {self.bar, (self.plan.get("stock") or {}).get("across")} | {d for s in self.plan["setups"] for o in s["operations"] for d in (o["from_diameter"], o["to_diameter"])}
        for held in (g, setup.get("rest")):
            if held and not any(d and abs(held["diameter"] - d) <= self.fine for d in sizes):
                self.bad(f"{where}: held on {held['diameter']}, which nothing is turned to")
        for r in [setup["rest"]] if setup.get("rest") else []:
            if not r["from"] < r["to"] <= float(overall):
                self.bad(f"{where}: a rest at {r['from']} to {r['to']}")
            if r["rest"] == "follow":
                # It travels with the tool: along the last cuts it carries.
                carried = [o["span"] for o in setup["operations"] if o["follow_rest"] and o["verb"] in ("finish", "turn", "thread")]
                ends = [e for span in carried for e in (span["from"], span["to"])] or [0.0]
                self.same(where, "follow rest from", r["from"], min(ends), self.fine)
                self.same(where, "follow rest to", r["to"], max(ends), self.fine)
                continue
            # Its jaws cover 3/4 in or 20 mm, and stand about a diameter and a quarter inch or 6 mm from the end worked (common practice, no source).
            self.same(where, "jaws of the rest", r["to"] - r["from"], 0.75 if self.inch else 20.0, self.fine)
            out = r["from"] if setup["works"] == "datum" else float(overall) - r["to"]
            if r["rest"] == "steady":
                # Behind what is faced or bored, or behind the deepest cut of that end, or where a finished section begins.
                room = 0.25 if self.inch else 6.0
                places = [p["from_datum"] for s in self.plan["setups"] for o in s["operations"] for p in o["positions"]]
                deep = [p if setup["works"] == "datum" else float(overall) - p for p in places]
                starts = [d + room for d in (r["diameter"], self.bar or r["diameter"], *deep)] + (deep if r["letter"] else [])
                self.same(where, "from the end to the rest", out, min(starts, key=lambda d: abs(d - out)), self.fine)

    def grip_length(self, where, setup, g, overall):
        """Jaws and dog hold their own length, or to the end of what they hold; and they begin at a face, at the room before the jaws, or at a round stick-out."""
        dog = setup["holding"] in ("between centers", "between second centers")
        usual = [(0.6 if self.inch else 15.0) if dog else (1.0 if self.inch else 25.0)]
        own = [float(n) * self.from_shop for n in self.shop.get("dogs" if dog else "jaws", [])] or usual
        # Long enough is a diameter, or 3/4 in, 19 mm where that is less.
        own.append(min(g["diameter"], 0.75 if self.inch else 19.0))
        if dog:
            # No dog of the shop may go over the bar.
            own += usual
        # Of a short bar half stands out.
        places = {0.0, overall, overall / 2}
        for op in (o for s in self.plan["setups"] for o in s["operations"]):
            places |= {p["from_datum"] for p in op["positions"]} | set((op.get("span") or {}).values())
        saw = max((self.plan.get("stock") or {}).get("length", overall) - overall, 0) / 2
        # Jaws as deep as they are, on the end that was there before.
        # Finished work that is indicated stands out of the jaws by its own diameter.
        if setup.get("runs_true"):
            from_, to_ = (-1, 1) if setup["datum_end"] == "tailstock" else (1, -1)
            stands = g["from"] if from_ < 0 else g["to"]
            places |= {stands} if any(abs(abs(stands - p) - g["diameter"]) <= self.fine * 20 for p in list(places)) else set()
        places |= {-saw, overall + saw, *own, *(overall - n for n in own)}
        room, step = (0.25, 0.25) if self.inch else (6.0, 5.0)
        least = 0.75 if self.inch else 19.0
        if setup["holding"] and "mill" in setup["setup"]:
            # A V-block lies between two cuts, clear of both.
            places |= {v + way * room for o in setup["operations"] for v in (o["span"] or {}).values() for way in (-1, 1)}
        at = lambda v: min(abs(v - p) for p in places) <= self.fine
        if not (any(abs(g["to"] - g["from"] - n) <= self.fine for n in own) or at(g["from"]) and at(g["to"]) or at(g["from"]) or at(g["to"])):
            self.bad(f"{where}: grips {g['to'] - g['from']}, jaws and dogs have {own}")
        near = g["from"] if setup["datum_end"] == "tailstock" else overall - g["to"]
        back = g["to"] if setup["datum_end"] == "tailstock" else overall - g["from"]
        whole = abs(near / step - round(near / step)) * step <= self.fine
        ends = [v for v in (g["from"], g["to"])]
        # Jaws keep a hair from what they are too short for, and from the round of a shoulder (common practice, no source).
        hair = 0.03125 if self.inch else 1.0
        beside = lambda v: min(abs(v - p) for p in places) <= hair + self.fine
        placed = [beside(v) or at(v - room) or at(v + room) for v in ends]
        exact = any(abs(g["to"] - g["from"] - n) <= self.fine for n in own)
        if not (exact and (any(placed) or whole or abs(near - (overall - least)) <= self.fine) or all(placed) or whole and at(g["to"] if setup["datum_end"] == "tailstock" else g["from"]) or abs(near - (overall - least)) <= self.fine and at(back if setup["datum_end"] == "tailstock" else overall - back)):
            self.bad(f"{where}: grips {g['from']} to {g['to']}, where nothing begins")

    def spans(self, where, op):
        """Where an operation stops is an end of what it spans."""
        span = op.get("span")
        if span and op["verb"] in ("groove", "thread") and op["positions"]:
            rows = [p["from_datum"] for p in op["positions"]]
            walls = (min(rows), max(rows)) if op["verb"] == "groove" and len(rows) > 1 else ()
            for end, wall in zip((min(span.values()), max(span.values())), walls):
                self.same(where, "wall", end, wall, self.fine)
            if not walls and min(abs(r - e) for r in rows for e in span.values()) > self.fine:
                self.bad(f"{where}: spans {span}, stands at {rows}")
            if len(rows) == 1 and op["verb"] == "groove" and op["tool_width"] and abs(abs(span["from"] - span["to"]) - op["tool_width"]) > self.fine:
                self.bad(f"{where}: one plunge of {op['tool_width']} for {span}")
        if span and op["verb"] in ("rough", "finish") and min(span.values()) < -0.05 * (self.plan.get("stock") or {"length": 1e9})["length"]:
            self.bad(f"{where}: begins at {span['from']}, off the bar")
        if not span or op["verb"] not in ("rough", "finish", "turn", "taper", "bore", "knurl", "chamfer", "ream") or not op["positions"]:
            return
        for p in op["positions"]:
            near = min(abs(p["from_datum"] - e) for e in span.values())
            if p["what"] == "past the face":
                # Through the parting tool's path where there is one, and a little: .04 in, 1 mm.
                least, most = (0.04, 0.25) if self.inch else (1, 6.4)
                self.same(f"{where}, {p['what']}", "beyond the span by", near, min(max(near, least), most), self.fine)
                continue
            self.same(f"{where}, {p['what']}", "an end of the span", near, 0.0, self.fine)
        if op["verb"] == "chamfer":
            self.same(where, "span of the leg", abs(span["from"] - span["to"]), op["chamfer"]["leg"], self.fine)
        if {p["what"] for p in op["positions"]} & {"start", "taper starts", "knurl starts", "edge"}:
            ends = {round(p["from_datum"], 5) for p in op["positions"]}
            if len(ends) == 2 and not all(min(abs(e - p) for p in ends) <= 1e-4 for e in span.values()):
                self.bad(f"{where}: spans {span}, stands at {sorted(ends)}")

    def span_ends(self, ops, overall):
        """Every span begins and ends at the ends of bar or part, where a row stands, a tool's width from a plunge, or at an end of its slot."""
        saw = max(((self.plan.get("stock") or {}).get("length", overall) - overall) / 2, 0)
        places = {0.0, overall, -saw, overall + saw} | {p["from_datum"] for o in ops for p in o["positions"]}
        if any(o["verb"] == "part off" for o in ops) or not self.plan.get("stock"):
            # What is left on for facing the end that was cut off, and cleaned at the other.
            places |= {-0.02, overall + 0.02} if self.inch else {-0.5, overall + 0.5}
        for o in ops:
            own = set(places)
            if o["verb"] == "groove" and o["tool_width"] and len(o["positions"]) == 1:
                own |= {o["positions"][0]["from_datum"] + by for by in (o["tool_width"], -o["tool_width"])}
            if o["verb"] == "center" and o["for_rest"]:
                # From the sawn end: of what is over, an eighth of an inch or 3.2 mm at most is cleaned off the datum end.
                clean = min(saw, 0.125 if self.inch else 3.2)
                sawn, deep = (-clean, 1) if o["end"] == "datum" else (overall + 2 * saw - clean, -1)
                own = {sawn, sawn + deep * o["center"]["depth"]}
            if "keyseat" in o:
                own = set(o["keyseat"]["slot"].values()) | {o["keyseat"].get("center", 0.0)}
                if c := o["keyseat"].get("cutter_center"):
                    half = o["keyseat"]["width"] / 2
                    own = {c["from"] - half, c["to"] + half, *own & places}
            for end, at in (o.get("span") or {}).items():
                self.same(f"{o['number']} {o['verb']}", f"span {end}", min(abs(at - p) for p in own), 0.0, self.fine * 10)

    def polish(self, ops):
        """A section is turned over what it is polished to by the allowance that the description wishes, none if it wishes none: never under it."""
        for o in ops:
            turned = [p for p in ops if p["feature"] == o["feature"] and p["verb"] in ("finish", "turn") and p["to_diameter"]]
            if o["verb"] == "polish" and o["to_diameter"] and turned:
                more = turned[-1]["to_diameter"] - o["to_diameter"]
                if not -1e-6 <= more <= (0.002 if self.inch else 0.05):
                    self.bad(f"{o['number']} polish {o['feature']}: {more} is left for it")

    def reliefs(self, ops):
        """What a thread runs out into is as long as the cut that makes it, or as its own run-out, which the rows of the thread tell."""
        grooves = {round(abs(o["span"]["from"] - o["span"]["to"]), 6) for o in ops if o["verb"] in ("groove", "turn", "finish") and o.get("span")}
        for o in ops:
            block = o.get("thread") or (o.get("hole") or {}).get("thread") or {}
            if o["verb"] == "thread" and block.get("relief") is not None:
                rows = [p["from_datum"] for p in o["positions"]]
                own = {round(max(rows) - min(rows), 6)} if rows else set()
                if "run-out" in (o["positions"] or [{"what": ""}])[0]["what"]:
                    # A left-hand thread begins in the middle of its own run-out, this side of the shoulder.
                    own = {round(2 * min(abs(rows[0] - v) for v in o["span"].values()), 6)}
                    if not min(o["span"].values()) < rows[0] < max(o["span"].values()):
                        self.bad(f"{o['number']} thread {o['feature']}: it begins at {rows[0]}, outside its own section")
                if min(abs(block["relief"] - g) for g in grooves | own) > self.fine:
                    self.bad(f"{o['number']} thread {o['feature']}: a relief of {block['relief']}, which nothing cuts")

    def sizes_before(self, ops):
        """A cut begins at the bar or at a size that another cut left; a dial's zero is on one of these."""
        made = {self.bar, (self.plan.get("stock") or {}).get("across")} | {o["to_diameter"] for o in ops} | {0.0}
        made |= {o[b][k] for o in ops for b, k in (("knurl", "blank"), ("crown", "diameter"), ("flats", "round")) if b in o}
        made |= {c["diameter"] for o in ops if "taper" in o for c in o["taper"]["checks"]}
        made |= {d for o in ops if "hole" in o for d in (o["hole"]["drills"] or [])}
        made |= {o["limits"]["min"] for o in ops if o["inside"] and o["limits"]}
        made = {d for d in made if d is not None}
        # About an eccentric's axis what is round about the part's stands out by the throw.
        made |= {d + 2 * o["throw"] for o in ops if o["throw"] for d in list(made)}
        for o in ops:
            sizes = [("begins at", o["from_diameter"])] + ([("zero on", o["cross_dial"]["from_zero"]["zero_on_diameter"])] if o["cross_dial"] and o["cross_dial"]["from_zero"] else [])
            for what, d in sizes:
                # A taper pipe thread begins at no one size (figures_recipes.py has both its ends).
                pipe = what == "begins at" and (o.get("thread") or {}).get("pipe")
                if d is not None and not pipe and min(abs(d - m) for m in made) > self.fine * 2:
                    self.bad(f"{o['number']} {o['verb']} {o['feature']}: {what} {d}, which nothing left")

    def order(self, numbers):
        """The bounds of an operation are operations on their side of it; setups count 1, 2, 3."""
        for i, s in enumerate(self.plan["setups"], 1):
            if s["number"] != i:
                self.bad(f"setup {s['number']} is the {i}. of the plan")
            for o in s["operations"]:
                for key, side in (("not_before", 1), ("not_after", -1)):
                    if o[key] and (o[key]["number"] not in numbers or (o["number"] - o[key]["number"]) * side <= 0):
                        self.bad(f"{o['number']}: {key} {o[key]['number']}")

    def inspection(self, ops):
        """Each limit on the inspection page once more: of the cuts, over wires, across bottoms and flats; lengths by the places of the cuts."""
        known = [o["limits"] for o in ops if o["limits"]]
        for o in ops:
            for block, key in (("thread", "over_wires"), ("thread", "blank"), ("keyseat", "across_bottom_limits"), ("flats", "across_limits"), ("hole", "limits")):
                if block in o and o[block].get(key):
                    known.append(o[block][key])
        known += [r["wanted"] for r in ((self.plan.get("chart") or {}).get("whole") or {}).get("results", []) if r.get("wanted")]
        known += [f["seat"] for f in self.plan.get("fits", [])]
        places = {e for o in ops for p in o["positions"] for e in (p["from_datum"], p["from_far_end"])}
        places |= {v for o in ops for p in o["positions"] if p["carriage"] is not None for v in [p["carriage"]]}
        for block in ("keyseat", "flats"):
            for o in ops:
                reach = o.get(block, {}).get("slot" if block == "keyseat" else "along")
                if reach:
                    places |= set(reach.values())
        places |= {e for o in ops if o.get("span") for e in o["span"].values()}
        apart = sorted(places)
        listed = [r["limits"] for r in self.plan.get("inspection", []) if r["limits"]]
        for o in ops:
            lim = o["limits"]
            if lim and not o["for_rest"] and o["verb"] in ("finish", "turn", "groove", "bore", "ream", "knurl") and "thread" not in o and "undercut" not in o\
                    and not any(p["feature"] == o["feature"] and ("knurl" in p or "thread" in p or p["verb"] == "polish") for p in ops):
                near = [abs(k["min"] - lim["min"]) + abs(k["max"] - lim["max"]) for k in listed]
                # A bore that a thread is cut in is proved by the thread's gauge.
                if near and min(near) > self.fine * 10 and not (o["inside"] and any(p["inside"] and p["verb"] in ("thread", "tap") for p in ops)):
                    self.bad(f"{o['number']}: {lim} is not on the inspection page")
        for r in self.plan.get("inspection", []):
            lim = r["limits"]
            if not lim or lim["min"] > lim["max"]:
                self.bad(f"inspection {r['letters']}: limits {lim}")
                continue
            within = self.fine * 5
            if any(abs(k["min"] - lim["min"]) <= within and abs(k["max"] - lim["max"]) <= within for k in known):
                self.same(f"inspection {r['letters']}", "limits of the cut", 0.0, 0.0, 0)
            elif "caliper" in r["with"] or "depth" in r["with"]:
                # A length lies between two places, whatever its limits are.
                holds = any(lim["min"] - within <= b - a <= lim["max"] + within for a in [0.0] + apart for b in apart if b > a)
                size = any(lim["min"] - within <= d <= lim["max"] + within for o in ops for d in (o["to_diameter"], o["tool_width"]) if d)
                wide = lim["max"] - lim["min"] > 0.1 * lim["max"] + (0.05 if self.inch else 1.2)
                if not holds and not size or wide:
                    self.bad(f"inspection {r['letters']}: nothing is cut to {lim}")

    def blank(self, where, t):
        """Tolerance of the major diameter: UN 2A .060 (P2)^1/3 (ASME B1.1), ISO 6g 180 P^2/3 - 3.15 P^-1/2 um (ISO 965-1), Acme .05 P (B1.5)."""
        band, p, name = t["blank"]["max"] - t["blank"]["min"], t["pitch"] * self.mm, t["designation"]
        if "2A" in name and "UN" in name:
            self.same(where, "band of the blank", band * self.mm / 25.4, 0.060 * (p / 25.4) ** (2 / 3), 1.2e-4)
        elif "6g" in name:
            self.same(where, "band of the blank", band * self.mm * 1000, 180 * p ** (2 / 3) - 3.15 / math.sqrt(p), 6)
        elif "ACME-2G" in name:
            self.same(where, "band of the blank", band * self.mm / 25.4, max(0.05 * p / 25.4, 0.005), 1.2e-4)
        elif name.startswith("Tr"):
            # ISO 2903: grade 4 whatever the class of the pitch diameter; .63 of grade 6, rounded to a preferred number.
            self.same(where, "band of the blank", band * self.mm * 1000, 0.63 * (180 * p ** (2 / 3) - 3.15 / math.sqrt(p)), 8)
        if t.get("tool_flat") is not None and "ACME-2G" in name:
            # ASME B1.5: flat of the root .3707 P less .259 of the clearance at the root (.020 up to 10 to the inch).
            self.same(where, "flat of the tool", t["tool_flat"] * self.mm / 25.4, 0.3707 * p / 25.4 - 0.259 * (0.020 if p >= 2.54 else 0.010), 5e-5)
        if t.get("tool_flat") is not None and name.startswith("Tr"):
            # ISO 2904: .366 P less .536 of the clearance, .25 for pitches 2 to 5, .5 from 6.
            self.same(where, "flat of the tool", t["tool_flat"] * self.mm, 0.366025 * p - 0.535898 * (0.25 if p <= 5 else 0.5), 2e-3)
        if t.get("nose_radius") is not None:
            # ASME B1.1 and ISO 68-1: the rounded root of a depth of .6134 P is H / 6.
            self.same(where, "nose of the tool", t["nose_radius"] * self.mm, p * math.sqrt(3) / 12, 6e-4)

    def minutes(self, where, op):
        """The estimate of the plan: cuts by travel over feed and speed, handling, measuring. L n / (f s): every handbook's time of a cut;
        handling and measuring: common practice, no source."""
        s = self.shop
        # What is thrown over an eccentric goes round as far out as it sweeps; its minutes are not worked again.
        if op.get("throw") or "minutes" not in s or self.bar is None or "speeds" not in s or s.get("rough") is None or s.get("hss") is None:
            return
        span, hand, measure, verb = op.get("span"), 0.3, s["minutes"]["measure"], op["verb"]
        long = abs(span["from"] - span["to"]) * self.mm if span else 0.0
        bar = self.bar * self.mm
        before = (op["from_diameter"] * self.mm) if op["from_diameter"] else bar
        after = (op["to_diameter"] * self.mm) if op["to_diameter"] else before
        rpm, feed = op["rpm"], (op["feed"] or 0) * self.mm
        if verb == "part off":
            # From the outside to the middle, or into a hole that was cut before.
            left = before - 2 * op["travel"] * self.mm
            holes = [0.0] + [o["to_diameter"] * self.mm for o in self.every() if o["inside"] and o["to_diameter"] and o["number"] < op["number"]]
            if min(abs(left - h) for h in holes) > 0.15:
                self.bad(f"{where}: goes in {op['travel']}, which leaves {left / self.mm}")
        elif op["travel"] is not None:
            # Fed from where the metal begins: from its own end at least, from the end of the work at most; slivers at shoulders aside.
            most = max(abs(p["from_datum"]) + abs(p["from_far_end"]) for o in self.every() for p in o["positions"])
            if not long - 0.6 <= op["travel"] * self.mm <= most * self.mm + 0.01:
                self.bad(f"{where}: travels {op['travel']}")
            long = op["travel"] * self.mm
        along = lambda n, measured: n * (long / (feed * rpm) + hand) + measured * measure
        if op["inside"] and verb == "drill":
            worked = len(op["hole"]["drills"]) * (long / (0.1 * rpm) * 1.5 + hand) + hand * 2
        elif verb == "ream":
            worked = long / (0.2 * rpm) * 1.5 + hand + measure
        elif verb == "tap":
            # In, half as far back, and out again, 20 turns a minute by hand.
            if not op["inside"]:
                return
            worked = 2.5 * long / (op["hole"]["thread"]["lead"] * self.mm) / 20 + hand * 2 + measure
        elif verb == "part off":
            worked = op["travel"] * self.mm / (0.05 * rpm) + hand * 2
        elif verb == "face":
            worked = (bar / 2 / (feed * rpm) + hand) * 2 + measure
        elif verb == "heat treat":
            # Whoever hardens it, the lathe's time is another's.
            worked = 0.1
        elif verb == "center":
            worked = 6.0 if op["for_rest"] else 1.0
        elif verb in ("rough", "finish", "turn", "bore"):
            n = op["passes"] or 1
            worked = along(n + op["without_infeed"], n if op["close"] else 1)
        elif verb == "taper":
            n = (op["taper"]["rough_cuts"] or 0) + (3 if op["close"] else 1)
            worked = along(n, n if op["close"] else 1)
        elif verb == "groove":
            n = 1 if op["inside"] or "undercut" in op else len(op["positions"])
            worked = n * (abs(before - after) / 2 / (0.05 * rpm) + hand) + hand + measure
        elif verb in ("chamfer", "deburr"):
            worked = 0.5
        elif verb == "thread":
            block = op.get("thread") or op["hole"]["thread"]
            # At the speed and in the passes the sheet tells, all starts; without infeed once more outside, twice inside.
            spring = max(op["without_infeed"], 1)
            if "thread" in op:
                self.same(where, "passes without infeed", op["thread"]["spring_passes"], spring, 0)
            n = len(op["thread"]["passes"]) + spring if "thread" in op else len(op["hole"]["infeed"]) + 2
            n *= round(block["lead"] / block["pitch"])
            # Half-nuts that stay closed: the tool comes back under power, as slowly as it went.
            ways = 2 if ((op.get("thread") or op["hole"]).get("dial") or {}).get("never_open") else 1
            worked = n * (ways * long / (block["lead"] * self.mm * rpm) + hand) + measure * 2
        elif verb == "polish":
            worked = 1 + measure
        elif verb == "file":
            worked = 6 + measure
        elif verb == "drill":
            turns, hole = op["wanted_rpm"], op["hole"]
            deep = (hole["depth"] if hole["depth"] is not None else hole["touch"]["half_round"] * 2) * self.mm
            worked = len(hole["drills"]) * (deep / (0.1 * turns) * 1.5 + hand) + hand * 2 + measure * 2
        elif verb == "mill":
            turns = op["wanted_rpm"]
            if "keyseat" in op:
                key = op["keyseat"]
                deep, path = key["depth_from_top"] * self.mm, key.get("cutter_center")
                n = math.ceil(deep / (key["cutter_diameter"] * self.mm / 2) - 1e-7) if path else 1
                fed = n * (path["to"] - path["from"]) * self.mm / (0.1 * turns) if path else 0.0
                worked = fed + deep / (0.05 * turns) + n * hand + measure * 3
            elif "flats" in op and turns is not None:
                flat = op["flats"]
                # The cutter from its speed: whatever its diameter, it runs at the turning speed.
                cutter = 1000 * self.turning_speed() / math.pi / turns
                most = 25.4 * 0.06 if s["units"] == "in" else 1.5
                n = math.ceil(flat["width"] * self.mm / cutter - 1e-3) * math.ceil(flat["depth"] * self.mm / most - 1e-7) * flat["count"]
                length = abs(flat["along"]["to"] - flat["along"]["from"]) * self.mm + cutter
                worked = n * (length / (0.1 * turns) + hand) + (flat["count"] - 1) * hand + measure * 3
            else:
                return
        elif verb == "inspect":
            worked = 5.0
        else:
            worked = 2.0
        self.same(where, "minutes", op["minutes"], max(worked, 0.1), 0.011 + 0.003 * worked)

    def every(self):
        return [o for s in self.plan["setups"] for o in s["operations"]]


def eval_number(text):
    """1 1/2, 3/16, .093: school arithmetic."""
    total = 0.0
    for word in re.findall(r"\d*\.?\d+(?:/\d+)?", str(text))[:2]:
        top, _, under = word.partition("/")
        if total and not under:
            break
        total += float(top) / float(under or 1)
    return total
