#!/usr/bin/env python3
"""Judge plans by the rules of the trade, without turnwright and without its certificate.

Usage: rules_check.py [--orders N] PLAN.json ...
PLAN.json is a reply of `plan --format json`, for one part or several; each names the description it was made from, which is read here (part_written.py). From verbs, spans,
grips and holdings alone it is asked whether each rule of RULES is kept. With --orders N as many other orders that the plan's certificate allows are drawn at random and
judged as well: one that breaks a rule here shows that the certificate does not state the part. Exit 1 with a line for each fault, 2 when unreadable.
"""
import copy
import json
import random
import sys

from part_written import GROOVES, SECTIONS, SLOTS, Part

# Soft rules give way to a wish, or are switched off by `off:`; the others never. Sources: the project's list of rules, which names one for each.
RULES = {
    "once": "every feature is cut, and its last cut only once, to its drawn size (common sense of a drawing)",
    "R1": "an end is faced before work is measured from it, faced and centered in one holding; a center holds only where a center hole is (Machine Shop Work)",
    "R2": "rough before finish, the surface before its edge, its groove, its thread, its polish (e-works 2011)",
    "R3": "an end is roughed all over before its first finish cut (OD1645)",
    "R5": "a close size after all heavier cuts of its setup (NAVEDTRA 14345)",
    "R9": "relief, groove, start chamfer before their thread (Schneider ch. 6)",
    "R10": "a thread, its blank and its relief in one holding (NAVEDTRA 14345)",
    "R11": "a knurl before the thinner neighbours of its end (Walker p. 453)",
    "R12": "a slot, flat or cross hole after the finish of what it lies on (NAVEDTRA 14345); a keyseat in cold-drawn bar before it where that is wished (CTE July 2021)",
    "R14": "keyseats at one clocking in one setup (common practice)",
    "R15": "a steady rest on hot-rolled or cast bar runs on a spot turned true, on a rough center in an end not faced yet that nothing else runs on (TC 9-524)",
    "R18": "what is polished, knurled or bored runs true: in the holding that turned it; seats of one end in one holding, of both ends on centers or indicated (support note)",
    "R20": "the larger diameter is roughed first (common practice)",
    "R21": "the datum face first (OpenWA; Rose)",
    "R23": "parted off last, never between centers (common practice)",
    "R25": "no grip over a slot; on a thread or a finished surface not bare (OD1645)",
    "roughed": "what is held as it is roughed is roughed by then, on one diameter, and not cut again (OD1645: the end that was in the dog is roughed before either is finished)",
    "jaws": "nothing is cut under or behind jaws or dog, or under a rest (common practice)",
    "metal": "jaws and rest hold the diameter that stands there at that moment (common sense)",
    "center-lost": "an end is bored after the last use of its center (common practice)",
    "free-end": "an end that runs on a center is not faced, centered or bored (common practice)",
    "polish-slot": "polish and file before any slot or hole is there to catch (Ontario labour ministry)",
    "lathe-first": "the lathe is done before a slot interrupts its cuts (common practice)",
    "thread-seat": "the seat beside a thread before the thread (common practice)",
    "hole": "drill, bore, ream; relief and chamfer before the thread; the small drill first; one hole in one holding (common practice)",
    "eccentric": "what is about the part's own axis before the work is thrown over (common practice)",
    "bench": "deburr, try the mates, inspect, after the last cut, in that order (common practice)",
    "setups": "an operation stands where its kind of work can be done: lathe, mill or bench (common sense)",
}
SOFT = {"R3": "R3", "R20": "R20", "R21": "R21", "lathe-first": "order-turn-keyseat", "thread-seat": "order-thread-seat", "R18": "R18", "R11": "R11", "R14": "R14", "R25": "R25"}
# What the plan itself says it cannot keep (a drawing that forbids a center, a part with nothing to hold) is told, and no fault.
TOLD = {"jaws": "feature-in-jaws", "R18": "seats-two-setups", "R25": "grip-on-finished"}
LAST = ("finish", "turn", "taper")
BENCH = ("deburr", "fit test", "inspect")
CUT = ("rough", "finish", "turn", "taper", "groove", "chamfer", "thread", "knurl", "file", "polish")
LATHE = ("chuck", "center", "mandrel", "collet", "faceplate")


class Step:
    """One operation as it comes: what it cuts, where, how it is held."""

    def __init__(self, at, setup, op):
        self.at, self.setup, self.op, self.verb = at, setup, op, op["verb"]
        self.letter, self.inside = op.get("feature") or "", op["inside"]
        span = op["span"]
        self.lo, self.hi = (min(span.values()), max(span.values())) if span else (None, None)
        self.thrown = setup["thrown"] is not None
        self.outer = self.verb in CUT and not self.inside and not self.thrown
        self.slot = self.verb == "mill" or (self.verb in ("drill", "tap") and not self.inside and setup["works"] is None)
        self.rough_center = bool(op.get("for_rest")) and self.verb == "center"
        self.spot = bool(op.get("for_rest")) and self.verb == "turn"
        self.last = self.outer and self.verb in LAST and not self.spot
        self.name = f"{op['number']} {op['id']}"

    def meets(self, lo, hi, fine):
        return self.lo is not None and self.lo < hi - fine and lo < self.hi - fine


class Judge:
    def __init__(self, plan, part):
        self.plan, self.part, self.faults = plan, part, []
        self.fine = 1e-6 if part.inch else 1e-5
        self.over = part.overall
        self.steps = []
        for s in plan["setups"]:
            for o in s["operations"]:
                self.steps.append(Step(len(self.steps), s, o))
        gave = {w["rule"] for w in plan.get("given_way") or []}
        self.off = {k for k, rule in SOFT.items() if rule in gave or rule in part.off}
        told = {f["check"] for f in plan["findings"]}
        self.off |= {rule for rule, check in TOLD.items() if check in told}
        self.ends = {"datum": 0.0, "far": self.over}
        sizes = [s.op["to_diameter"] for s in self.steps if s.last]
        kept = any(f.main.startswith("stock") for f in part.sections)
        self.largest = part.bar if kept else max(sizes, default=0.0)

    def bad(self, rule, text):
        if rule not in self.off:
            self.faults.append((rule, text))

    def before(self, rule, first, then, why):
        for a in first:
            for b in then:
                if a.at > b.at:
                    self.bad(rule, f"{a.name} after {b.name}: {why}")

    def together(self, rule, steps, why):
        numbers = {s.setup["number"] for s in steps}
        if len(numbers) > 1:
            self.bad(rule, f"{', '.join(s.name for s in steps)} in {len(numbers)} setups: {why}")

    def all(self, wanted):
        return [s for s in self.steps if wanted(s)]

    def on(self, f):
        """Outside cuts that meet a section."""
        return [s for s in self.steps if s.outer and s.meets(f.start, f.end, self.fine)]

    def lasts(self, f):
        """The cuts that bring a section to size: its own, by the grooving tool where it is narrow, else that of the neighbour turned as one with it."""
        on = self.on(f)
        return [s for s in on if s.letter == f.letter and (s.last or s.verb == "groove")] or [s for s in on if s.last]

    def judge(self):
        for rule in (self.once, self.ends_first, self.rough_first, self.minor, self.threads, self.slots, self.true_together, self.knurls,
                     self.parting, self.grips, self.centers, self.holes, self.eccentrics, self.spots, self.bench, self.kinds):
            rule()
        return self.faults

    # Every feature, once.

    def once(self):
        for f in self.part.sections:
            if f.main.startswith("stock"):
                if any(s.last for s in self.on(f)):
                    self.bad("once", f"{f.letter} keeps the bar's surface and is cut")
                continue
            if f.get("offset"):
                self.number(f, [s for s in self.steps if s.thrown and s.letter == f.letter and s.verb in LAST], 1)
                continue
            cuts = [s for s in self.lasts(f) if s.op["to_diameter"] is not None]
            # Diameters nearer than the finish are turned as one; a neck is passed over before it is plunged.
            if f.kind == "relief":
                cuts = [s for s in self.on(f) if s.verb == "groove" and s.letter == f.letter]
                cuts = cuts or [s for s in self.on(f) if s.last and s.letter == f.letter]
            gap, twice = self.covered(cuts, f)
            if gap > 10 * self.fine:
                self.bad("once", f"{f.letter} is not cut to size over {gap:.4f}")
            if twice > 10 * self.fine:
                self.bad("once", f"{f.letter} is brought to size twice over {twice:.4f}")
            self.to_size(f, cuts)
            if f.kind in ("thread", "knurl"):
                self.number(f, [s for s in self.steps if s.verb == f.kind and s.letter == f.letter and not s.inside], 1)
        for f in self.part.features:
            if f.kind in GROOVES:
                self.lying(f, [s for s in self.steps if s.verb == "groove" and s.letter == f.letter])
            elif f.kind in SLOTS:
                self.lying(f, [s for s in self.steps if s.verb in ("mill", "drill") and s.letter == f.letter and not s.inside])
                if f.kind == "tapped hole":
                    self.number(f, [s for s in self.steps if s.verb == "tap" and s.letter == f.letter and not s.inside], 1)
            elif f.kind == "center hole" and f.main != "none":
                for end in ("datum", "far") if f.get("end") == "both" else (f.get("end"),):
                    self.number(f, self.centers_of(end), 1)
                    if "DS" in f.main:
                        self.number(f, [s for s in self.steps if s.verb == "tap" and s.inside and not s.letter and self.works_of(s) == end], 1)
        for f in self.part.inside:
            if f.letter:
                made = [s for s in self.steps if s.inside and s.letter == f.letter]
                final = {"thread": ("thread", "tap"), "taper": ("taper",), "relief": ("groove",)}.get(f.kind, ("bore", "ream", "drill"))
                made = [s for s in made if s.verb in final]
                if f.kind in ("bore", "hole", "drill"):
                    size = self.part.size(f.main)
                    made = [s for s in made if abs(s.op["to_diameter"] - size) < 0.004 * size]
                self.number(f, made, 1)
        self.edges()

    def number(self, f, made, wanted):
        if len(made) != wanted:
            self.bad("once", f"{f.kind} {f.letter}: {len(made)} operations make it, not {wanted}")

    def lying(self, f, made):
        self.number(f, made, 1)
        for s in made:
            if f.start is not None and s.lo is not None and not s.lo - 10 * self.fine <= f.start <= s.hi + 10 * self.fine:
                self.bad("once", f"{f.kind} {f.letter} at {f.start}: cut from {s.lo} to {s.hi}")

    def covered(self, cuts, f):
        """What of a section no last cut reaches, and what two of them do."""
        gap, twice, at = 0.0, 0.0, f.start
        for s in sorted(cuts, key=lambda s: s.lo):
            lo, hi = max(s.lo, f.start), min(s.hi, f.end)
            gap += max(0.0, lo - at)
            twice += max(0.0, min(at, hi) - lo)
            at = max(at, hi)
        return gap + max(0.0, f.end - at), twice

    def to_size(self, f, cuts):
        drawn = None
        if f.kind in ("turn", "relief"):
            drawn = self.part.limits(f.main)
        elif f.kind == "taper" and f.get("large"):
            drawn = self.part.limits(f.get("large"))
        if drawn is None:
            return
        near = 0.05 * self.fine + (0.004 * drawn[1] if f.kind == "relief" else 0.0)
        for s in cuts:
            if not drawn[0] - near - self.fine <= s.op["to_diameter"] <= drawn[1] + near + self.fine:
                self.bad("once", f"{s.name} makes {s.op['to_diameter']}, {f.letter} is drawn {drawn[0]:.5f} to {drawn[1]:.5f}")

    def edges(self):
        """Chamfers and crowns by their ends and places; those inside by their end alone."""
        wanted = {}
        for f in self.part.features + self.part.inside:
            if f.kind in ("chamfer", "crown", "countersink"):
                for end in ("datum", "far") if f.get("end") == "both" else [f.get("end")]:
                    verb = "file" if f.kind == "crown" else "chamfer"
                    key = (verb, f in self.part.inside, round(self.ends.get(end, f.start), 4))
                    wanted[key] = wanted.get(key, 0) + 1
        for s in self.all(lambda s: s.verb in ("chamfer", "file")):
            place = min((k for k in wanted if k[:2] == (s.verb, s.inside)), key=lambda k: min(abs(k[2] - s.lo), abs(k[2] - s.hi)), default=None)
            if place is None or min(abs(place[2] - s.lo), abs(place[2] - s.hi)) > 1e-3:
                self.bad("once", f"{s.name}: no such edge is drawn")
            else:
                wanted[place] -= 1
        for key, left in wanted.items():
            if left:
                self.bad("once", f"{key[0]} at {key[2]}: {'missing' if left > 0 else 'cut too often'}")

    # Faces, centers, roughing.

    def works_of(self, s):
        return s.setup["works"]

    def ends_first(self):
        for end in ("datum", "far"):
            faces = self.all(lambda s: s.verb == "face" and self.works_of(s) == end)
            if len(faces) != 1:
                self.bad("once", f"the {end} end is faced {len(faces)} times")
            centers = [s for s in self.centers_of(end) if not s.thrown]
            parted = self.all(lambda s: s.verb == "part off")
            measured = self.all(lambda s: self.works_of(s) == end and s not in faces and s.verb != "part off" and not s.thrown and not s.spot)
            if not parted or end == parted[0].setup["works"]:
                self.before("R1", faces, measured, f"the {end} end is not faced yet")
            self.together("R1", faces + centers, "the center hole is to be square to its face")
        first, then = (self.all(lambda s: s.verb == "face" and self.works_of(s) == e) for e in ("datum", "far"))
        if not self.part.first_far and not self.part.part_off:
            self.before("R21", first, then, "every length is measured from the datum face")

    def centers_of(self, end):
        return self.all(lambda s: s.verb == "center" and self.works_of(s) == end)

    def rough_first(self):
        roughs, lasts = self.all(lambda s: s.outer and s.verb == "rough"), self.all(lambda s: s.last)
        for f in self.part.sections:
            on = self.on(f)
            self.before("R2", [s for s in on if s.verb == "rough"], [s for s in self.lasts(f) if s.last and self.same_end(s, on)], f"{f.letter} is roughed first")
        for a in roughs:
            for b in lasts:
                if self.works_of(a) == self.works_of(b) and a.setup["number"] == b.setup["number"] and a.at > b.at and not self.two_ended(b):
                    self.bad("R3", f"{a.name} after {b.name}")
            for b in roughs:
                end = self.ends.get(self.works_of(a))
                through = end is not None and self.works_of(a) == self.works_of(b) and end in (a.lo, a.hi) and end in (b.lo, b.hi)
                if through and a.at < b.at and a.op["to_diameter"] < b.op["to_diameter"] - self.fine:
                    self.bad("R20", f"{a.name} before the larger {b.name}")
        close = [s for f in self.part.sections for s in self.lasts(f) if f.kind == "turn" and not f.main.startswith("stock") and not f.get("offset") and self.part.is_close(f.main)]
        heavy = [s for s in self.steps if s.outer and not s.spot and s.verb in ("rough", "groove") + LAST and s not in close and not self.close_groove(s) and not self.undercut(s)]
        for b in close:
            for a in heavy:
                if a.setup["number"] == b.setup["number"] and a.at > b.at:
                    self.bad("R5", f"{b.name} is close and comes before {a.name}")

    def close_groove(self, s):
        return s.verb == "groove" and s.op["limits"] and (s.op["limits"]["max"] - s.op["limits"]["min"]) * (25.4 if self.part.inch else 1) <= 0.0254 + 1e-9

    def undercut(self, s):
        """In a corner, so much below the finished seat and face: cut when both are to size (DIN 509, its depth t1, from memory)."""
        return s.verb == "groove" and any(f.kind == "undercut" and f.letter == s.letter for f in self.part.features)

    def same_end(self, s, others):
        return all(self.works_of(o) == self.works_of(s) or o.verb != "rough" for o in others)

    def two_ended(self, last):
        """Whether what it finishes may be worked from either end: nothing is larger, or it is turned in two bites."""
        f = next(f for f in self.part.sections if last.meets(f.start, f.end, self.fine))
        return last.op["to_diameter"] >= self.largest - self.fine or f.start == 0 and f.end == self.over

    # What follows the surface.

    def minor(self):
        for s in self.all(lambda s: s.outer and s.verb in ("polish", "chamfer", "file", "groove", "knurl", "thread")):
            hosts = [f for f in self.part.sections if s.meets(f.start, f.end, self.fine) and not f.main.startswith("stock")]
            if s.verb == "groove":
                self.groove(s, hosts)
                continue
            for f in hosts:
                lasts = [b for b in self.lasts(f) if b.meets(s.lo, s.hi, self.fine) and (s.verb != "thread" or s.letter == f.letter)]
                self.before("R2", lasts, [s], f"{f.letter} is to size first")
                if s.verb in ("polish", "knurl") and s.letter == f.letter:
                    self.together("R18", lasts + [s], f"{f.letter} runs true where it was turned")
                if f.kind == "knurl" and s.verb == "chamfer":
                    self.before("R2", [k for k in self.on(f) if k.verb == "knurl"], [s], "the knurl throws the edge up")

    def groove(self, s, hosts):
        """After the roughing of what it is plunged from; after its finish, unless that takes the burr away."""
        for f in hosts:
            self.before("R2", [r for r in self.on(f) if r.verb == "rough" and r.meets(s.lo, s.hi, self.fine)], [s], "it is plunged from a roughed surface")
            close = f.kind == "turn" and self.part.is_close(f.main)
            if s.letter != f.letter and f.kind in ("turn", "taper"):
                lasts = [b for b in self.lasts(f) if b.last and b.meets(s.lo, s.hi, self.fine)]
                if self.undercut(s):
                    self.before("R2", lasts, [s], f"{f.letter} is to size before its undercut")
                elif close and not self.close_groove(s):
                    self.before("R5", [s], lasts, "the last cut takes the groove's burr away")
                elif not close:
                    self.before("R2", lasts, [s], f"{f.letter} is to size before its groove")

    def threads(self):
        sections = self.part.sections
        for i, f in enumerate(sections):
            if f.kind != "thread":
                continue
            cut = [s for s in self.steps if s.verb == "thread" and s.letter == f.letter and not s.inside]
            blank = [s for s in self.lasts(f)]
            self.together("R10", [b for b in blank if cut and self.works_of(b) == self.works_of(cut[0])] + cut, f"the thread {f.letter} and its blank")
            for s in cut:
                if all(self.works_of(b) != self.works_of(s) for b in blank):
                    self.bad("R10", f"{s.name}: its blank is turned from the other end")
            for near in (sections[i - 1] if i else None, sections[i + 1] if i + 1 < len(sections) else None):
                if near is None:
                    continue
                if near.kind == "relief":
                    own = [s for s in self.lasts(near) if s.letter == near.letter]
                    self.before("R9", own, cut, f"the tool runs out in {near.letter}")
                    self.together("R10", [s for s in own if cut and self.works_of(s) == self.works_of(cut[0])] + cut, f"the thread {f.letter} and its relief")
                elif self.is_seat(near) and not self.part.part_off:
                    self.before("thread-seat", self.lasts(near), cut, f"the seat {near.letter} beside it")
            edge = self.all(lambda s: s.verb in ("chamfer", "file") and s.outer and s.meets(f.start, f.end, self.fine))
            self.before("R9", edge, cut, "the thread starts in its chamfer")

    def is_seat(self, f):
        if f.kind not in ("turn", "taper") or f.main.startswith("stock") or f.get("offset"):
            return False
        close = f.kind == "turn" and self.part.is_close(f.main)
        return bool(close or f.get("carries") or f.get("true to"))

    def called(self, f):
        return {f.letter, f.get("name")} - {None, ""}

    def early(self, slot):
        """Cuts that bring to size the seat of a keyseat that is wished before its finish, on cold-drawn bar: R13 stands against R12 there."""
        key = next((f for f in self.part.features if f.kind == "keyseat" and f.letter == slot.letter), None)
        if key is None or not self.part.drawn_bar or "R13" in self.part.off:
            return []
        late = []
        for first, then in self.part.before:
            if first in self.called(key) and then.startswith("finish "):
                late += [b for f in self.part.sections if then[7:] in self.called(f) for b in self.lasts(f)]
        return late

    def slots(self):
        slots = self.all(lambda s: s.slot)
        for s in slots:
            for f in self.part.sections:
                lo, hi = (s.lo, s.hi) if s.hi > s.lo else (s.lo - self.fine * 3, s.hi + self.fine * 3)
                if f.start < hi - self.fine and lo < f.end - self.fine and not f.main.startswith("stock") and not f.get("offset"):
                    late = self.early(s)
                    self.before("R12", [b for b in self.lasts(f) if b.lo < hi and lo < b.hi and b not in late], [s], f"it takes its depth from {f.letter}")
                    if late:
                        self.before("R2", [r for r in self.on(f) if r.verb == "rough"], [s], f"{f.letter} is roughed before the slot in it")
                        self.before("R12", [s], late, f"{f.letter} is wished to be finished after it")
        drawn = [s for s in slots if self.early(s)]
        self.before("polish-slot", self.all(lambda s: s.verb in ("polish", "file")), slots, "the strip or file catches in a slot")
        self.before("lathe-first", self.all(lambda s: s.outer and s.verb not in ("polish", "file") or s.thrown and s.verb in LAST + ("rough",)), [s for s in slots if s not in drawn], "the slot interrupts the cut")
        for kind in ({f.get("angle") or "0" for f in self.part.features if f.kind == "keyseat"}):
            own = {f.letter for f in self.part.features if f.kind == "keyseat" and (f.get("angle") or "0") == kind}
            self.together("R14", [s for s in slots if s.letter in own], "keyseats at one clocking")

    def true_together(self):
        made = {}
        for f in self.part.sections:
            if self.is_seat(f):
                for s in self.lasts(f):
                    if s.last:
                        made.setdefault(self.works_of(s), []).append((f, s))
        for end, list_ in made.items():
            own = [s for f, s in list_]
            self.together("R18", own, f"the seats of the {end} end run true to each other")
        # From end to end what carries a bearing, or is drawn true to another.
        setups = {s.setup["number"]: s.setup for list_ in made.values() for f, s in list_ if "bearing" in (f.get("carries") or "") or f.get("true to")}
        if len(setups) > 1:
            loose = [s for s in setups.values() if "centers" not in s["holding"] and not s["runs_true"]]
            first = min(setups)
            if any(s["number"] != first for s in loose):
                self.bad("R18", f"seats are finished in {len(setups)} holdings, and {loose[-1]['setup']} does not run true to the others")

    def knurls(self):
        sections = self.part.sections
        for i, f in enumerate(sections):
            if f.kind != "knurl":
                continue
            cut = [s for s in self.on(f) if s.verb == "knurl" and s.letter == f.letter]
            blank = next((s.op["to_diameter"] for s in self.lasts(f)), None)
            for near in (sections[i - 1] if i else None, sections[i + 1] if i + 1 < len(sections) else None):
                for b in self.lasts(near) if near is not None and blank else []:
                    # One cut that makes both is no neighbour's.
                    if b not in self.lasts(f) and b.op["to_diameter"] < blank - self.fine and cut and self.works_of(b) == self.works_of(cut[0]):
                        self.before("R11", cut, [b], f"{near.letter} beside it is thin")

    def parting(self):
        parted = self.all(lambda s: s.verb == "part off")
        if self.part.part_off and len(parted) != 1:
            self.bad("R23", f"parted off {len(parted)} times")
        for p in parted:
            if "centers" in p.setup["holding"]:
                self.bad("R23", f"{p.name} between centers")
            behind = "far" if p.setup["works"] == "datum" else "datum"
            for s in self.steps:
                if s.at > p.at and s.setup["works"] == p.setup["works"] and s.verb not in BENCH and not s.slot:
                    self.bad("R23", f"{s.name} after {p.name}")
                if s.verb == "face" and s.setup["works"] == behind and s.at < p.at:
                    self.bad("R23", f"{s.name}: the end is not there before {p.name}")

    # How it is held, moment by moment.

    def grips(self):
        profile = [(-1e9, 1e9, self.part.bar, "bar")]
        held = None
        slots, threads = [], []
        for s in self.steps:
            if s.setup["number"] != held:
                held = s.setup["number"]
                self.grip(s.setup, profile, slots, threads)
            self.under(s)
            if s.lo is None:
                continue
            if s.slot:
                slots.append(s)
            elif s.outer and s.verb == "thread":
                threads.append(s)
            elif s.outer and s.op["to_diameter"] and s.verb != "polish":
                profile = cut(profile, *self.reach(s), s.op["to_diameter"], s)

    def reach(self, s):
        """What a cut takes metal from: a roughing comes in from the end, over all that will be smaller, to the section that it is told for."""
        if s.verb != "rough" or not s.setup["works"]:
            return s.lo, s.hi
        datum = s.setup["works"] == "datum"
        for f in self.part.sections:
            outboard = f.end <= s.lo + self.fine if datum else f.start >= s.hi - self.fine
            if outboard and (f.main.startswith("stock") or any(b.op["to_diameter"] > s.op["to_diameter"] + self.fine for b in self.lasts(f))):
                return s.lo, s.hi
        return (-1e9, s.hi) if datum else (s.lo, 1e9)

    def grip(self, setup, profile, slots, threads):
        g, rest = setup["grip"], setup["rest"]
        here = f"setup {setup['number']}"
        if g:
            there = [(d, by) for lo, hi, d, by in profile if lo < g["to"] - self.fine and g["from"] < hi - self.fine]
            near = max(10 * self.fine, 1e-4 * g["diameter"])
            # Jaws close on the largest there.
            if self.part.stock_kept and abs(max(d for d, _ in there) - g["diameter"]) > near:
                self.bad("metal", f"{here} holds {g['diameter']} where {[d for d, _ in there]} stands")
            for t in threads:
                if t.meets(g["from"], g["to"], self.fine) and not g["protect"]:
                    self.bad("R25", f"{here} holds the thread of {t.name} bare")
            for t in slots:
                if t.lo < g["to"] - self.fine and g["from"] < t.hi - self.fine:
                    self.bad("R25", f"{here} holds over the slot of {t.name}")
            if g.get("roughed"):
                # Shoulders that roughing leaves standing begin where its grip ends.
                other = [by if by == "bar" else by.name for d, by in there if by == "bar" or by.verb != "rough"]
                if other or g["protect"] or max(d for d, _ in there) - min(d for d, _ in there) > near:
                    self.bad("roughed", f"{here} holds {other or [d for d, _ in there]} as roughed")
            finished = any(by != "bar" and by.last and d > g["diameter"] - near for d, by in there)
            if finished and not g["protect"] and not setup["runs_true"]:
                self.bad("R25", f"{here} holds a finished surface bare")
        if rest and rest["rest"] == "steady":
            # A narrow groove under its jaws is bridged.
            over = [(min(hi, rest["to"]) - max(lo, rest["from"]), d) for lo, hi, d, by in profile if lo < rest["to"] - self.fine and rest["from"] < hi - self.fine]
            there = [d for long, d in over if long > 0.3 * (rest["to"] - rest["from"])]
            if self.part.stock_kept and max(there) - min(there) > 10 * self.fine or abs(max(there) - rest["diameter"]) > 10 * self.fine:
                self.bad("metal", f"{here}: the rest runs on {there}, told {rest['diameter']}")
            if g and rest["from"] < g["to"] - self.fine and g["from"] < rest["to"] - self.fine:
                self.bad("jaws", f"{here}: the rest stands in the jaws")

    def under(self, s):
        g, rest, works = s.setup["grip"], s.setup["rest"], s.setup["works"]
        if g and works and s.lo is not None and s.verb != "part off":
            behind = s.hi > g["from"] + 10 * self.fine if works == "datum" else s.lo < g["to"] - 10 * self.fine
            # What is cut inside reaches through the chuck.
            if behind and not s.inside:
                self.bad("jaws", f"{s.name} from {s.lo} to {s.hi}, held from {g['from']} to {g['to']}")
        if rest and rest["rest"] == "steady" and s.lo is not None and not s.inside and s.lo < rest["to"] - self.fine and rest["from"] < s.hi - self.fine:
            self.bad("jaws", f"{s.name} under the steady rest")

    def on_centers(self, setup):
        """Ends that run on a center of the part's own axis."""
        kind = setup["holding"]
        if kind == "between centers":
            return ["datum", "far"]
        return [setup["works"]] if kind == "chuck and center" else []

    def centers(self):
        opened = {"datum": None, "far": None}
        drilled = set()
        tapped = {end: any(f.kind == "center hole" and "DS" in f.main and f.get("end") in (end, "both") for f in self.part.features) for end in opened}
        seat = {end: self.seat_inside(end) for end in opened}
        for s in self.steps:
            for end in self.on_centers(s.setup):
                if s.spot:
                    continue
                if end not in drilled and not seat[end]:
                    self.bad("R1", f"{s.name} on a center in the {end} end, which has no hole for it")
                if opened[end] is not None and not seat[end]:
                    self.bad("center-lost", f"{s.name} on the center of the {end} end, which {opened[end]} took away")
                if works_end(s, end):
                    self.bad("free-end", f"{s.name}: a center stands in the {end} end")
            if s.verb == "center" and s.setup["works"]:
                drilled.add(s.setup["works"])
            if s.inside and s.lo is not None and not (tapped.get(s.setup["works"]) and not s.letter):
                # A hole that comes out at the other end opens that one too.
                for end, face in self.ends.items():
                    if s.lo <= face + self.fine and face - self.fine <= s.hi:
                        opened[end] = opened[end] or s.name
        second = self.all(lambda s: s.verb == "center" and s.setup["works"] is None and not s.rough_center)
        self.before("R1", second, self.all(lambda s: s.setup["holding"] == "between second centers"), "the second center holes are not there")
        if not second and any(s.setup["holding"] == "between second centers" for s in self.steps):
            self.bad("R1", "no second center holes are drilled")

    def seat_inside(self, end):
        """A countersink of 60 degrees at a bore's mouth carries a center as well."""
        return any(f.kind in ("countersink", "chamfer") and "60" in f.main and f.get("end") in (end, "both") for f in self.part.inside)

    # Inside.

    def holes(self):
        inner = self.all(lambda s: s.inside and s.letter)
        rank = {"drill": 0, "bore": 1, "ream": 2, "taper": 2, "tap": 3, "thread": 3}
        for f in self.part.inside:
            own = [s for s in inner if s.letter == f.letter and s.verb in rank]
            for a in own:
                for b in own:
                    if rank[a.verb] < rank[b.verb] and a.at > b.at or a.verb == b.verb and a.at < b.at and a.op["to_diameter"] > b.op["to_diameter"] + self.fine:
                        self.bad("hole", f"{a.name}, {b.name}: drill, bore, ream, then the thread; wider each time")
            self.together("hole", own, f"the hole {f.letter} runs true to itself")
        for end in self.ends:
            own = self.all(lambda s: s.inside and self.works_of(s) == end)
            threads = [s for s in own if s.verb in ("thread", "tap")]
            self.before("hole", [s for s in own if s.verb in ("groove", "chamfer")], threads, "the thread starts and runs out in it")
            drills = [s for s in own if s.verb == "drill"]
            for a in drills:
                for b in drills:
                    if a.at < b.at and a.op["to_diameter"] > b.op["to_diameter"] + self.fine and a.letter and b.letter:
                        self.bad("hole", f"{b.name} after the larger {a.name}")
            self.before("hole", [s for s in drills if s.letter], [s for s in own if s.letter and s.verb in ("bore", "ream", "taper", "groove")], "drilled before anything is bored")
        for t in self.all(lambda s: s.slot and s.verb == "tap"):
            self.before("hole", self.all(lambda s: s.slot and s.verb == "drill" and s.letter == t.letter), [t], "drilled, then tapped")

    def eccentrics(self):
        thrown = self.all(lambda s: s.thrown and s.verb in CUT)
        self.before("eccentric", self.all(lambda s: s.outer or s.verb == "face"), thrown, "the part's own axis first")
        for f in self.part.sections:
            own = [s for s in thrown if s.letter == f.letter]
            self.before("R2", [s for s in own if s.verb == "rough"], [s for s in own if s.verb in LAST], f"{f.letter} is roughed first")

    # The spot for a steady rest.

    def spots(self):
        for s in self.steps:
            if not s.spot:
                continue
            end, setup = self.works_of(s), s.setup["number"]
            if s.setup["holding"] != "chuck and center":
                self.bad("R15", f"{s.name} in {s.setup['setup']}: it is turned on the rough center")
            if any(o.setup["number"] == setup and not o.spot for o in self.steps):
                self.bad("R15", f"setup {setup}: nothing but {s.name} runs on the rough center")
            if not any(r.rough_center and r.op["end"] == end and r.at < s.at for r in self.steps):
                self.bad("R15", f"{s.name}: no rough center in the {end} end")
            self.before("R15", [s], self.all(lambda f: f.verb == "face" and self.works_of(f) == end), "the rough center went with the face")
            if not any(self.rests_on(o.setup, s) and o.at > s.at for o in self.steps):
                self.bad("R15", f"{s.name}: no rest runs on it")
        for r in self.all(lambda s: s.rough_center):
            if not any(s.spot and s.op["end"] == r.op["end"] for s in self.steps):
                self.bad("R15", f"{r.name}: no spot is turned on it")
        if not self.part.scale:
            return
        held = set()
        for o in self.steps:
            rest = o.setup["rest"]
            if o.setup["number"] in held or not rest or rest["rest"] != "steady":
                continue
            held.add(o.setup["number"])
            advised = any(w["rule"] == "R15" and ("turn a spot" in w["reason"] or "a sleeve with screws" in w["reason"]) for w in o.setup["why"])
            cut_there = any(s.outer and s.at < o.at and s.op["to_diameter"] and self.reach(s)[0] < rest["to"] and rest["from"] < self.reach(s)[1] for s in self.steps)
            if not advised and not cut_there:
                self.bad("R15", f"setup {o.setup['number']}: the rest runs on the bar as it was bought")

    def rests_on(self, setup, spot):
        r = setup["rest"]
        return bool(r) and r["rest"] == "steady" and spot.lo <= r["from"] + self.fine and r["to"] - self.fine <= spot.hi

    def bench(self):
        rank = {"deburr": 1, "fit test": 2, "inspect": 3}
        for a in self.steps:
            for b in self.steps:
                if rank.get(a.verb, 0) < rank.get(b.verb, 0) and a.at > b.at:
                    self.bad("bench", f"{a.name} after {b.name}")
        for verb in ("deburr", "inspect"):
            if not self.all(lambda s: s.verb == verb):
                self.bad("bench", f"no {verb}")

    def kinds(self):
        for s in self.steps:
            kind = s.setup["holding"]
            lathe = s.setup["works"] is not None
            if s.verb in BENCH or s.rough_center or s.verb == "heat treat":
                right = kind == "bench"
            elif s.verb == "mill":
                right = not lathe and kind != "bench"
            elif s.verb in ("rough", "finish", "turn", "taper", "groove", "chamfer", "knurl", "polish", "thread", "bore", "ream", "face", "part off", "file"):
                right = lathe
            else:
                right = kind != "bench"
            if not right:
                self.bad("setups", f"{s.name} in {s.setup['setup']}")


def works_end(s, end):
    return s.setup["works"] == end and (s.verb in ("face", "center") or s.inside)


def cut(profile, lo, hi, d, by):
    """The profile after a cut: nothing grows but what is knurled."""
    out = []
    for a, b, was, who in profile:
        if b <= lo or a >= hi:
            out.append((a, b, was, who))
            continue
        if a < lo:
            out.append((a, lo, was, who))
        smaller = d < was or by.verb == "knurl"
        out.append((max(a, lo), min(b, hi), d if smaller else was, by if smaller else who))
        if b > hi:
            out.append((hi, b, was, who))
    return out


def faults(plan, part, own=True):
    """Faults of a plan; in another order of it the diameters told for jaws and rest are not asked, since they were told for its own."""
    judge = Judge(plan, part)
    return [f for f in judge.judge() if own or f[0] != "metal"]


# Other orders that the certificate allows.

def another(plan, dice):
    """The plan in another order that its certificate allows, each operation in the setup it has; none when the walk runs into a dead end."""
    c = plan["certificate"]
    where = {o["id"]: s for s in plan["setups"] for o in s["operations"]}
    names = list(where)
    before = {n: set() for n in names}
    for a, b in c["precedences"]:
        before[b].add(a)
    follows, leads = dict(c["adjacent"]), {b: a for a, b in c["adjacent"]}
    done, order, setup = set(), [], None
    while len(order) < len(names):
        held = any((a in done) != (b in done) for a, b in c["same_setup"])
        may = []
        for n in names:
            to = where[n]["setup"]
            if n in done or before[n] - done or (order and order[-1] in follows and follows[order[-1]] != n) or (n in leads and (not order or leads[n] != order[-1])):
                continue
            if to != setup and (held or set(c["setup_needs"].get(to, [])) - done or set(c["setup_ends"].get(to, [])) & done):
                continue
            if set(c["setup_ends"].get(to, [])) & done:
                continue
            if any(a == n and b not in done for a, b in c.get("setup_gates", {}).get(to, [])):
                continue
            may.append(n)
        if not may:
            return None
        stay = [n for n in may if where[n]["setup"] == setup]
        n = dice.choice(stay if stay and dice.random() < 0.8 else may)
        order.append(n)
        done.add(n)
        setup = where[n]["setup"]
    return reordered(plan, order)


def reordered(plan, order):
    """The same operations in another order; a setup that is left and taken up again is another."""
    ops = {o["id"]: (s, o) for s in plan["setups"] for o in s["operations"]}
    out = dict(plan, setups=[])
    for n, name in enumerate(order):
        setup, op = ops[name]
        if not out["setups"] or out["setups"][-1]["setup"] != setup["setup"]:
            out["setups"].append(dict(setup, number=len(out["setups"]) + 1, operations=[]))
        out["setups"][-1]["operations"].append(dict(op, number=10 * n + 10))
    return out


def main():
    args, orders = sys.argv[1:], 0
    if args[0] == "--orders":
        orders, args = int(args[1]), args[2:]
    judged = others = wrong = 0
    for path in args:
        with open(path, encoding="utf-8") as file:
            reply = json.load(file)
        for plan in reply if isinstance(reply, list) else [reply]:
            with open(plan["file"], encoding="utf-8") as file:
                part = Part(file.read())
            found = [("plan", f) for f in faults(plan, part)]
            judged += 1
            dice = random.Random(plan["part"])
            for _ in range(orders):
                other = another(plan, dice)
                if other is not None:
                    others += 1
                    found += [("an order the certificate allows", f) for f in faults(other, part, own=False)]
            wrong += bool(found)
            seen = set()
            for what, (rule, text) in found:
                if (what, rule, text) not in seen:
                    seen.add((what, rule, text))
                    print(f"{plan['file']}: {what}: {rule}: {text}")
    print(f"{judged} plans and {others} other orders judged by {len(RULES)} rules, {wrong} with faults")
    return 1 if wrong or not judged else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError, StopIteration, TypeError) as e:
        import traceback
        traceback.print_exc()
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
