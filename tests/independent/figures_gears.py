"""What drives a thread, worked again: wheels between spindle and leadscrew, lines of the thread dial and what is engraved there, further starts.

Used by figures_check.py. Everything in exact fractions, from the designation and the shop file: lead = screw x product of drivers / product of driven
(every textbook of change gears); the train is searched among all of the shop's wheels, two or four of them. Wheels on a stud must clear the shafts beside them: the
first two together 15 teeth more than the third, the last two 15 more than the second (a workshop rule, from memory). A line of the dial comes after
teeth x line / marks threads of the leadscrew (F. D. Jones, Turning and Boring, 1914).
"""
import itertools
import re
from fractions import Fraction as F

SHAFT = 15
# A lead further off than this is no thread of that pitch (common practice, no source).
WORST = F(2, 1000)


def number(text):
    """18, 11 1/2, 1.5."""
    return sum(F(w) for w in text.split())


def goes_on(a, b, c, d):
    return a + b >= c + SHAFT and c + d >= b + SHAFT


def ratios(wheels):
    """Every train that can be mounted: (drivers, driven, ratio)."""
    for a, b in itertools.permutations(wheels, 2):
        yield (a,), (b,), F(a, b)
    for a, b, c, d in itertools.permutations(wheels, 4):
        if goes_on(a, b, c, d):
            yield (a, c), (b, d), F(a * c, b * d)


class Drive:
    """One thread and the shop that cuts it; lengths in inches."""

    def __init__(self, plan, shop, same, bad):
        self.units, self.shop, self.same, self.bad = plan["units"], shop, same, bad
        self.known = {}

    def check(self, where, block, lead, pitch, starts, nominal):
        """`block` has gearbox and dial, and indexing where there are several starts."""
        if block.get("gearbox") is not None:
            self.gearbox(where, block["gearbox"], lead, starts, nominal)
        dial = block.get("dial")
        own = self.shop.get("thread dial")
        if dial and own:
            self.labels(where, dial, own)
        if block.get("indexing"):
            self.further_starts(where, block, own, pitch, starts)

    def trains(self):
        wheels = tuple(sorted(self.shop.get("change gears", [])))
        if wheels not in self.known:
            self.known[wheels] = list(ratios(wheels))
        return self.known[wheels]

    def gearbox(self, where, says, lead, starts, nominal):
        screw, listed = self.shop.get("leadscrew"), self.shop.get("threads", [])
        if m := re.fullmatch(r"wheels ([\d, a-z]*?\d)(?:, not exact: ([−-]?[\d.]+) over the length of a nut)?", says):
            pairs = [(int(a), int(b)) for a, b in re.findall(r"(\d+) drives (\d+)", m.group(1))]
            if len(pairs) != m.group(1).count("drives") or not pairs:
                return self.bad(f"{where}: no train is told by {says!r}")
            return self.train(where, pairs, m.group(2), lead, starts, nominal)
        if m := re.fullmatch(r"(set )?([\d /.]+) (tpi|mm)( is not in the gearbox)?", says):
            told = number(m.group(2))
            worked = 1 / lead if m.group(3) == "tpi" else lead * F("25.4")
            self.same(where, "lead of the gearbox", float(told), float(worked), 5e-5)
            there = any(abs(l - lead) < F(1, 10**9) for l in listed)
            if (m.group(4) is None and not m.group(1)) != there:
                self.bad(f"{where}: {says!r}, and the shop file {'lists' if there else 'does not list'} it")
            if m.group(4) and screw and any(abs(r * screw / lead - 1) <= WORST for _, _, r in self.trains()):
                self.bad(f"{where}: {says!r}, and wheels of the shop cut it")
            return
        self.bad(f"{where}: no gearbox is told by {says!r}")

    def train(self, where, pairs, error, lead, starts, nominal):
        screw, gears = self.shop["leadscrew"], list(self.shop.get("change gears", []))
        for wheel in (w for pair in pairs for w in pair):
            if wheel not in gears:
                return self.bad(f"{where}: the shop has no further wheel of {wheel} teeth")
            gears.remove(wheel)
        ratio = F(1)
        for a, b in pairs:
            ratio *= F(a, b)
        if len(pairs) == 2 and not goes_on(*pairs[0], *pairs[1]):
            self.bad(f"{where}: the wheels {pairs} meet a shaft")
        off = ratio * screw / lead - 1
        best = min(abs(r * screw / lead - 1) for _, _, r in self.trains())
        self.same(where, "lead of the wheels, nearest of all", float(abs(off)), float(best), 1e-12)
        if error is None:
            self.same(where, "lead of the wheels over the lead", float(ratio * screw / lead), 1.0, 1e-12)
            ways = [t for t in self.trains() if t[2] * screw == lead]
            self.same(where, "wheels, the fewest", len(pairs), min((len(a) for a, _, _ in ways), default=0), 0) if starts == 1 else None
        else:
            mm = F("25.4") if self.units == "mm" else 1
            told = F(error.replace("−", "-"))
            digits = len(error.split(".")[1]) if "." in error else 0
            self.same(where, "error over a nut", float(told), float(off * nominal * mm), 0.51 * 10.0 ** -digits)
        by_gear = starts > 1 and self.shop.get("start index") == "gear"
        if by_gear and pairs[0][0] % starts and any(a[0] % starts == 0 and abs(r * screw / lead - 1) == best for a, _, r in self.trains()):
            self.bad(f"{where}: the first wheel, {pairs[0][0]} teeth, does not divide by {starts}, and another train's does")

    def engraved(self, own, line):
        words = own.get("engraved", "").strip('"').split()
        at = line % int(own["marks"])
        return words[at] if at < len(words) else "-"

    def labels(self, where, dial, own):
        worked = [self.engraved(own, line) for line in dial["lines"]]
        if dial["labels"] != worked:
            self.bad(f"{where}: labels {dial['labels']}, engraved there {worked}")
        if dial["never_open"]:
            told = "never open the half-nuts: reverse the spindle"
        elif dial["anywhere"]:
            told = "anywhere"
        elif len(dial["lines"]) == int(own["marks"]):
            told = "any mark"
        else:
            told = self.marks(own, dial["lines"])
        if dial["says"] != told:
            self.bad(f"{where}: {dial['says']!r} is told, worked {told!r}")

    def marks(self, own, lines):
        """`marks 1, 3 only`; a line without a figure by the one before that has one. The last line is where the dial begins."""
        marks, words = int(own["marks"]), []
        for line in sorted(l % marks for l in lines):
            back = next((n for n in range(marks) if self.engraved(own, line - n) != "-"), None)
            figure = self.engraved(own, line - (back or 0))
            words.append(f"line {line or marks}" if back is None else figure if back == 0 else f"the line after {figure}" if back == 1 else f"{back} lines after {figure}")
        return f"mark{'s' if len(words) > 1 else ''} {', '.join(words)} only"

    def instead(self, where, block, pitch, starts):
        """No line for one of the starts: teeth of the first wheel where it divides, else the pitch on the compound's dial."""
        says, teeth = block["indexing"]["says"], block["indexing"].get("teeth")
        opening = "no line of the thread dial finds the others; "
        if not says.startswith(opening):
            self.bad(f"{where}: {says!r}, worked: {opening!r}")
        wheel = re.match(r"wheels (\d+) drives", block.get("gearbox") or "")
        if wheel and int(wheel.group(1)) % starts == 0:
            of = int(wheel.group(1))
            told, worked = [int(n) for n in re.findall(r"\d+", says)], [of, of // starts, of]
            self.same(where, "teeth on", (teeth or {"on": 0})["on"], of // starts, 0)
            return self.bad(f"{where}: further starts by {told}, worked {worked}") if told != worked else None
        self.on_compound(where, says, pitch)

    def on_compound(self, where, says, pitch):
        m = re.search(r"advance (?:it|the compound) ([\d.]+)(?: (?:in|mm))? on its dial \((?:(\d+) turns?)?(?: and )?(?:(\d+) divisions?)?\)", says)
        dial = self.shop.get("compound dial")
        if not m or not dial:
            part = F("25.4") if self.units == "mm" else 1
            found = re.search(r"advance (?:it|the compound) (\d*\.?\d+)", says)
            return self.same(where, "on to the next start", float(found.group(1)) if found else -1.0, float(pitch * part), 1e-3)
        own_unit = 1 if self.shop["units"] == "in" else F("25.4")
        division, turn = number(dial["division"]), number(dial["turn"])
        self.same(where, "on to the next start", float(F(m.group(1))), float(pitch * own_unit), float(division) / 2)
        told = float(int(m.group(2) or 0) * turn + int(m.group(3) or 0) * division)
        worked = float(round(pitch * own_unit / division) * division)
        if told != worked:
            self.bad(f"{where}: further starts by {told}, worked {worked}")

    def further_starts(self, where, block, own, pitch, starts):
        says, way = block["indexing"]["says"], self.shop.get("start index")
        part = F("25.4") if self.units == "mm" else 1
        if way == "gear" and (teeth := block["indexing"].get("teeth")):
            told = [int(n) for n in re.findall(r"\d+", says)]
            worked = [teeth["of"], teeth["on"], teeth["of"]]
        elif way == "gear":
            told, worked = [int(n) for n in re.findall(r"\d+", says)], [1, starts, starts]
        elif way == "dial" and own and self.shop.get("leadscrew"):
            # After so many threads of the leadscrew the carriage is some whole pitches on: of which start?
            marks, screw, on = int(own["marks"]), self.shop["leadscrew"], {}
            for line in range(1, marks + 1):
                threads = F(int(own["teeth"]) * line, marks)
                pitches = threads * screw / pitch
                if threads.denominator == 1 and pitches.denominator == 1:
                    on.setdefault(int(pitches) % starts, []).append(line)
            told, worked = says, "; ".join(f"start {k + 1} at {self.marks(own, on[k])}" for k in range(starts) if k in on)
            if len(on) < starts:
                return self.instead(where, block, pitch, starts)
        elif way == "compound" and " on its dial (" in says:
            return self.on_compound(where, says, pitch)
        else:
            found = re.search(r"(?<![\w.])(\d*\.?\d+)", says)
            if found:
                self.same(where, "on to the next start", float(found.group(1)), float(pitch * part), 1e-3)
            return
        if told != worked:
            self.bad(f"{where}: further starts by {told}, worked {worked}")
