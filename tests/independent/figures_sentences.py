"""Numbers inside sentences, worked again from the numbers beside them, which are worked again themselves, from the description and from the shop file.

Used by figures_check.py. SENTENCES has a way for each kind of sentence of the keys that sentences.csv says are worked again; a sentence with a digit that no way fits is
a fault. What is told in the unit of an instrument carries its name. Heat: growth = size x expansion x rise, steels 10.4 to 16.5 per million and kelvin (engineering
tables). Scale: 1.6 % of the bar a side (a bar dealer's rule for clean-up stock).
"""
import math
import os
import re

import figures_assumed
import figures_give as give
from figures_written import NUMBER as SIZE
from figures_written import value

N = r"(\d*\.?\d+)"
U = r"( in| mm)?"


class Said:
    """What a sentence may draw on."""

    def __init__(self, plan, shop, overall, bar, same, bad):
        self.plan, self.shop, self.overall, self.bar = plan, shop, float(overall), bar
        self.same, self.bad = same, bad
        self.inch = plan["units"] == "in"
        path = plan.get("file") or ""
        text = open(path, encoding="utf-8").read() if os.path.isfile(path) else ""
        self.text = "\n".join(re.split(r"(?:^|\s)#", l)[0] for l in text.splitlines())
        self.squeezed = re.sub(r"\s+", "", self.text)
        self.where, self.setup, self.op = "", None, None

    def pick(self, inches, millimetres):
        return inches if self.inch else millimetres

    def from_shop(self, number):
        own = self.shop.get("units", self.plan["units"])
        return float(number) * (1.0 if own == self.plan["units"] else 1 / 25.4 if self.inch else 25.4)

    def near(self, what, told, worked, unit=None):
        """To half of the last digit told; `unit` where it is told in another."""
        if worked is None:
            return self.bad(f"{self.where}: {what} {told}, of which nothing is known")
        if unit and unit.strip() != self.plan["units"]:
            worked *= 25.4 if unit.strip() == "mm" else 1 / 25.4
        digits = len(told.split(".")[1]) if "." in told else 0
        self.same(self.where, what, float(told), float(worked), 0.501 * 10.0 ** -digits + 1e-9)

    def exactly(self, what, told, worked):
        self.same(self.where, what, float(told), float(worked), 1e-9)

    def written(self, told):
        """It stands in the description as it is told."""
        if re.sub(r"\s+", "", told) not in self.squeezed:
            self.bad(f"{self.where}: {told!r} stands nowhere in the description")


def crank(s, turns, spaces, circle, of_turn):
    ratio, circles = s.shop.get("head", (40, []))
    told = int(turns) + (int(spaces) / int(circle) if circle else 0)
    s.exactly("turns of the crank", told, ratio * of_turn)
    if circle and int(circle) not in circles:
        s.bad(f"{s.where}: a circle of {circle}, which the plate has not")


CRANK = r"(\d+) turns of the crank(?: and (\d+) spaces on the circle of (\d+) holes)?"


def keyseat(s, kind, *told):
    """What is set on the machine is told in its dials' unit, with that unit's name."""
    k = s.op["keyseat"]
    rough = k.get("roughed")
    if kind == "side":
        worked = (rough["side_touch"], rough["diameter"], k["width"]) if rough else (k["side_touch"], k["across_bottom"] + k["depth_from_top"], k["width"])
        for what, at, unit, size in zip(("raise", "half of the seat", "half of the cutter"), told[0::2], told[1::2], worked):
            s.near(what, at, size, unit)
    elif kind == "center":
        s.near("cutter's centre", told[0], k["center"], told[1])
    elif kind == "path":
        for what, at, unit in zip(("from", "to"), told[0::2], told[1::2]):
            s.near(f"cutter's centre {what}", at, (k["cutter_center"] or {}).get(what), unit)
    elif kind == "deep":
        s.near("deep from the top", told[0], (rough or k)["depth_from_top"], told[1])
    if kind != "across" and any(u is not None for u in told[1::2]) != (s.shop.get("units", s.plan["units"]) != s.plan["units"]):
        s.bad(f"{s.where}: the unit of the dials is named, or is not, where it need be")
    elif kind == "across":
        limits = k["across_on_instrument"] if told[2] and k["across_on_instrument"] else k["across_bottom_limits"]
        for what, at in zip(("min", "max"), told):
            s.near(f"across the bottom {what}", at, limits[what])


def keyseat_roughed(s, kind, *told):
    """What is measured before the finish, and after it."""
    k = s.op["keyseat"]
    limits = k["across_bottom_limits"]
    if kind == "finished":
        rows = (("deep once finished", k["depth_from_top"]), ("across, min", limits["min"]), ("across, max", limits["max"]))
    elif kind == "across":
        rows = tuple((f"across the roughed round, {at}", k["roughed"]["across_bottom_limits"][at]) for at in ("min", "max"))
    else:
        rows = (("roughed diameter", k["roughed"]["diameter"]),)
    for (what, worked), at in zip(rows, told):
        s.near(what, at, worked)


def flats(s, kind, *told):
    f = s.op["flats"]
    if kind == "deep":
        s.near("down", told[0], f["depth"])
    elif kind == "edge":
        s.near("edge stops", told[0], min((v for v in f["along"].values()), key=lambda v: abs(v - float(told[0]))))
    elif kind == "edges":
        for at, end in zip(told, ("from", "to")):
            s.near("edge stops", at, f["along"][end])
    elif kind == "first":
        for what, at, unit, worked in zip(("to the far side", "if the round is", "less"), told[0::2], told[1::2], (f["after_first"], f["round"], f["depth"])):
            s.near(what, at, worked, unit)
    elif kind == "turn":
        s.near("turn", told[0], 360 / f["count"])
        s.exactly("in all", told[1], f["count"])
        if told[2]:
            crank(s, told[2], told[3], told[4], 1 / f["count"])
    else:
        s.near(kind, told[0], {"across": f["across"], "deep": f["depth"], "to the far side": f["after_first"]}[kind])


def undercut(s, kind, *told):
    u = s.op["undercut"]
    if kind == "nose":
        s.near("nose", told[0], u["radius"])
        s.exactly("slope along the seat (DIN 509)", told[1], 15)
        s.near("in by", told[2], (u["depth_a_side"]["min"] + u["depth_a_side"]["max"]) / 2)
    elif kind == "face":
        s.near("into the face", told[0], u["face_depth"])
        s.exactly("slope of the face (DIN 509)", told[1], 8)
        s.near("up from the seat", told[2], u["face_height"])


def pipe(s, kind, *told):
    p = s.op["thread"]["pipe"]
    if kind == "by hand":
        whole = float(told[0] or 0) + {"¼": 0.25, "½": 0.5, "¾": 0.75, None: 0.0}[told[1]]
        s.same(s.where, "turns by hand", whole, p["turns"], 0.126)
        s.near("a turn", told[2], p["turn"])
    else:
        s.near("useful thread", told[0], p["useful_length"])


def heat(s, rise, scale, large):
    s.exactly("degrees", rise, 30 if scale == "F" else 17)
    kelvin = 30 / 1.8 if scale == "F" else 17
    sizes = [o["to_diameter"] for o in s.setup["operations"] if o["to_diameter"] and o["number"] >= s.op["number"]]
    least = 10.0 ** -len(large.split(".")[1])
    near = [(d * 10.4e-6 * kelvin, d * 16.5e-6 * kelvin) for d in sizes[:1]]
    if not any(low - least / 2 <= float(large) <= high + least / 2 or float(large) == least > low for low, high in near):
        s.bad(f"{s.where}: {large} larger, for {sizes[:1]}")


def scale(s, told, *more):
    skin = s.bar * 0.016
    digits = 10.0 ** -len((more[0] if more else told).split(".")[1])
    s.exactly("under the scale", (more[0] if more else told), round(math.ceil(skin / digits - 1e-6) * digits, 6))
    if more:
        s.near("first cut", told, s.op["depth_of_cut"])


def strip(s, kind, told):
    op = s.op
    if kind == "takes":
        return s.near("the strip takes", told, op["from_diameter"] - op["to_diameter"])
    # Both as they are printed: to the digits of the difference.
    digits = 10.0 ** -len(told.split(".")[1])
    lower = math.ceil(op["limits"]["min"] / digits - 1e-6) * digits
    s.same(s.where, "the strip may take", float(told), op["to_diameter"] - lower, 1.01 * digits)


def corner(s, told):
    found = [re.findall(rf"({SIZE})", m)[0] for m in re.findall(r"fillet:\s*([^\n,}]*)", s.text)]
    sizes = [value(f) for f in found] + [1 / 25.4 * value(f) for f in found] + [25.4 * value(f) for f in found]
    s.near("corner", told, min(sizes, key=lambda v: abs(v - float(told)), default=None))


def taper(s, kind, *told):
    t = s.op["taper"]
    a, b = t["checks"][0], t["checks"][-1]
    long = abs(a["from_datum"] - b["from_datum"])
    if kind == "angle":
        s.exactly("minutes", int(told[0]) * 60 + int(told[1]), round(t["half_angle_deg"] * 60))
    elif kind == "rate":
        # A pipe thread's own (ASME B1.20.1).
        s.written(told[0]) if "NPT" not in s.text or told[0] != "1:16" else None
    elif kind == "stroke":
        s.near("long", told[0], long)
        s.near("a compound's travel", told[1], s.pick(3.0, 75.0))
    elif kind == "over":
        s.near("set-over", told[0], t["setover"])
        s.near("the tailstock's travel", told[1], s.from_shop(s.shop["tailstock travel"]))
    elif kind == "compound, over":
        s.near("long", told[0], long)
        s.near("set-over", told[1], t["setover"])
        if len(told) > 2:
            s.near("the tailstock's travel", told[2], s.from_shop(s.shop["tailstock travel"]))
    elif kind == "attachment":
        s.near("set-over", told[0], t["setover"])


def plain(path, *keys):
    """The numbers told are those that stand at these keys of the operation."""
    def look(s, *told):
        for key, number in zip(keys, told):
            value = s.op
            for step in key.split("."):
                value = value[step] if value else None
            s.near(f"{path} {key}", number, value)
    return look


def correction(s, told, unit):
    s.near("overall less what is measured", told, s.overall, unit)


def out_of_jaws(s, told):
    grip = s.setup["grip"]
    out = s.setup["stick_out"] or (grip["from"] if s.setup["works"] == "datum" else s.overall - grip["to"])
    sizes = [s.setup["grip"]["diameter"], s.bar] + [o["to_diameter"] for o in s.setup["operations"] if o["to_diameter"]]
    s.near("diameters out of the jaws", told, min((out / d for d in sizes), key=lambda v: abs(v - float(told))))


def knurled(s, told):
    """From the jaws to the outer edge of the knurl, in diameters of its blank."""
    out, ends = s.setup["stick_out"], s.op["span"].values()
    outer = min(ends) if s.setup["works"] == "datum" else s.overall - max(ends)
    s.near("diameters out of the jaws", told, (out - outer) / s.op["knurl"]["blank"])


def thrown(s, told):
    s.near("off the axis", told, next((o["throw"] for o in s.setup["operations"] if o["throw"]), None))


def long_and_thrown(s, told, diameters):
    thrown(s, told)
    s.near("diameters long", diameters, min((s.overall / d for d in {o["to_diameter"] for x in s.plan["setups"] for o in x["operations"] if o["to_diameter"]} | {s.bar}),
                                            key=lambda v: abs(v - float(diameters))))


def clocked(s, letter, degrees, turns, spaces, circle):
    s.near("turned on", degrees, s.op["clocked"]["turn_deg"])
    if turns:
        crank(s, turns, spaces, circle, float(degrees) / 360)


def followed(s, pitch, size):
    s.near("jaws wider than the pitch", pitch, s.op["thread"]["pitch"])
    s.near("on the finished diameter", size, s.op["from_diameter"])


def at_the_step(s, pitch, size, smaller, at):
    followed(s, pitch, size)
    sizes = [o["to_diameter"] for x in s.plan["setups"] for o in x["operations"] if o["to_diameter"]] + [s.bar]
    s.near("the smaller diameter beside it", smaller, min(sizes, key=lambda d: abs(d - float(smaller))))
    begins = s.op["span"]["from"]
    s.near("where it begins", at, begins if s.setup["datum_end"] == "tailstock" else s.overall - begins)


def swept(s, *told):
    """A section about the part's own axis sweeps its diameter and twice the throw (plain geometry); the tool stays 0.1 in or 2.5 mm outside, at a round size."""
    *sweeps, clear, low, high = [t for t in told if t is not None]
    sizes = [s.bar]
    for x in s.plan["setups"]:
        for o in x["operations"]:
            sizes += [d for d in (o["to_diameter"], *(o["limits"] or {}).values()) if d]
    for own in sweeps:
        near = min(sizes, key=lambda d: abs(d + 2 * s.op["throw"] - float(own)))
        s.near("the circle a neighbour sweeps", own, near + 2 * s.op["throw"])
    room, step = s.pick((0.1, 0.05), (2.5, 1.0))
    least = max([float(o) for o in sweeps] + [s.op["from_diameter"]]) + room
    if float(clear) < least - 1e-3 or abs(float(clear) / step - round(float(clear) / step)) > 1e-6:
        s.bad(f"{s.where}: clear of {clear}, where {least} is the least")
    if s.op["positions"] and len(s.op["positions"]) == 2:
        walls = sorted(p["carriage"] for p in s.op["positions"])
        s.near("the wall it comes to first", low, walls[0])
        s.near("the other wall", high, walls[1])


def plunge(s, told):
    at = [p["what"] for p in s.op["positions"]].index(f"plunge {told}")
    s.exactly("plunge", told, at + 1)


def keys_size(s, told):
    """Woodruff by its number; else width, height and length as `keyseat:` has them."""
    if told.startswith("Woodruff"):
        return s.written(told)
    worked = [tuple(value(n) for n in re.findall(rf"({SIZE})", m)[:3]) for m in re.findall(r"keyseat:\s*(\d[^\n#]*)", s.text)]
    if tuple(float(n) for n in told.split(" × ")) not in worked:
        s.bad(f"{s.where}: {told!r} stands nowhere in the description")


def center_drill(s, told):
    """As the drawing has it, or, where it shows none, one of the shop's."""
    c = s.op["center"]
    drawn = c["usual_for"] is None and not c["second"] and c["odd_legs"] is None
    # The usual one where none of the shop's is small enough.
    if drawn or told not in s.shop.get("center drills", [told]) and not re.fullmatch(r"No\. [1-8]|A [\d./ ]+", told):
        s.written(told)


def none(s, *_):
    """Numbers of a name, not of a size."""


# Key: what a sentence of it may look like, and what works its numbers.
def rough_center(s, deep, left, off):
    """How deep it is drilled, what facing takes off, and what stays."""
    center = next(o for x in s.plan["setups"] for o in x["operations"] if o["verb"] == "center" and o["for_rest"] and o["end"] == s.op["end"])
    faced = abs(s.op["span"]["from"] - s.op["span"]["to"])
    s.near("depth of the rough center", deep, center["center"]["depth"])
    s.near("faced off", off, faced)
    if left is not None:
        s.near("left of the rough center", left, center["center"]["depth"] - faced)


def second_apart(s, told):
    """Farther than the throw: which drill, and so how far, hangs on a table (src/handbook/eccentric has its own tests)."""
    throw = max(x["thrown"]["throw"] for x in s.plan["setups"] if x["thrown"])
    if not throw < float(told) < 10 * throw:
        s.bad(f"{s.where}: two center holes want {told}, and the throw is {throw}")


def second_face(s, end, face, wanted):
    """The end's own size less its chamfer; twice the throw and a mouth with a quarter of it to either side (common practice, no source)."""
    throw = max(x["thrown"]["throw"] for x in s.plan["setups"] if x["thrown"])
    sizes = [o["to_diameter"] for x in s.plan["setups"] for o in x["operations"] if o["to_diameter"] and not o["inside"]]
    drawn = [v for d in sizes for v in (d, *(d - 2 * value(leg) for leg in re.findall(rf"chamfer:\s*({SIZE}) x", s.text)))]
    s.same(s.where, f"face of the {end} end", float(face), min(drawn, key=lambda v: abs(v - float(face))), s.pick(0.003, 0.1))
    if not max(float(face), 2 * throw) < float(wanted):
        s.bad(f"{s.where}: a face of {face} is no smaller than {wanted}")


def runs_true(s, told):
    """What the description states, or for seats that nobody wrote of .001 in, .02 mm (common practice, no source)."""
    stated = [value(n) for n in re.findall(rf"within:\s*({SIZE})", s.text)]
    s.near("runs true within", told, min(stated, key=lambda v: abs(v - float(told)), default=s.pick(0.001, 0.02)))
    if s.setup["holding"].startswith("4-jaw"):
        # Indicated to half of it, a half of a thousandth at best (common practice, no source).
        s.same(s.where, "runs true", s.setup["runs_true"], max(float(told) / 2.0, s.pick(0.0005, 0.01)), 1e-6)


BARREL = rf"the work gives way by about {N} on the diameter under this cut: (\d+) pass(?:es)? without infeed leaves? (?:about {N}|next to nothing)"
ROUGH_CENTER = [
    (rf"the rough center is {N} deep: {N} of it stay when {N} are off", rough_center),
    (rf"the rough center is {N} deep and goes with the {N} that come off here", lambda s, deep, off: rough_center(s, deep, None, off))]
SENTENCES = {
    "setups[].correction": [(rf"Overall measured ____; touch the far face and set the carriage dial to {N}{U} − measured = ____ instead of 0: .*", correction)],
    "setups[].setup": [(rf"between second centers {N}, .*", thrown), (rf"chuck, packed under one jaw {N}, .*", thrown),
                       (rf"4-jaw chuck, thrown over {N}, .*", thrown), (r"\d-jaw chuck(?: and center)?, (?:datum|far) end .*", none)],
    "setups[].why[].reason": [
        (rf"{N} diameters out of the jaws.*", out_of_jaws),
        (rf"the axis of \w+ lies {N} off the part's: .*", thrown),
        (rf"the axis of \w+ lies {N} off the part's, and the part is {N} diameters long: .*", long_and_thrown),
        (r"the (\d) flats of \w+ are parts of one turn: .*", lambda s, n: s.exactly("flats", n, next(o["flats"]["count"] for o in s.setup["operations"] if "flats" in o))),
        (rf".* must run true to .* within {N}: .*", runs_true),
        (rf"not between second centers: two center holes in the \w+ end would run .* wants them {N} apart", second_apart),
        (rf"not between second centers: the (\w+) end's face of {N} is too small for a second center hole: it wants {N}, .*", second_face),
        (rf"(\w+) gives way by about {N} under its last cut, {N} % of its band: .*", give.followed),
        (rf"(\w+) is {N} diameters between its supports, more than {N} are turned without a rest: .*", give.between_supports),
        (rf"(?:in the chuck alone|in chuck and center|held otherwise|held elsewhere in the chuck) (\w+) would give way by about {N} under its last cut, {N} times its band: .*", give.too_soft)],
    "setups[].operations[].keyseat.recipe[]": [
        (rf"Touch the side of the round with paper; clear of the work, then across by {N}{U} and the paper: the cutter is on the middle \(half of {N}{U} and half of {N}{U}\)\.", lambda s, *t: keyseat(s, "side", *t)),
        (rf"Cutter's centre {N}{U} from the datum face\.", lambda s, *t: keyseat(s, "center", *t)),
        (rf"Cutter's centre from {N}{U} to {N}{U} from the datum face\.", lambda s, *t: keyseat(s, "path", *t)),
        (rf"Touch the top with paper, zero, in by the paper, then {N}{U} deep from the top\.", lambda s, *t: keyseat(s, "deep", *t)),
        (rf"Micrometer from the bottom across: {N} to {N}{U}\.", lambda s, *t: keyseat(s, "across", *t)),
        (rf"Measure the roughed Ø: {N} is what these numbers take it for\. .*", lambda s, *t: keyseat_roughed(s, "diameter", *t)),
        (rf"Micrometer from the bottom across the roughed round: {N} to {N}\.", lambda s, *t: keyseat_roughed(s, "across", *t)),
        (rf"Edges broken before the finish runs over them\. After the finish {N} from the top; from the bottom across {N} to {N}\. .*", lambda s, *t: keyseat_roughed(s, "finished", *t))],
    "setups[].operations[].keyseat.key": [(r"(.*)", keys_size)],
    "setups[].operations[].center.size": [(r"(.*)", center_drill)],
    "setups[].operations[].thread.designation": [(r"(.*?)( LH)?", lambda s, t, _: s.written(t if s.op["thread"]["pipe"] else re.sub("Tr ", "Tr", t)))],
    "setups[].operations[].flats.recipe[]": [
        (rf"Touch the top of the round with paper, zero, down by the paper, then {N} more\.", lambda s, *t: flats(s, "deep", *t)),
        (rf"The cutter's edge stops {N} from the datum face\.", lambda s, *t: flats(s, "edge", *t)),
        (rf"The cutter's edges stop {N} and {N} from the datum face\.", lambda s, *t: flats(s, "edges", *t)),
        (rf"Micrometer from the (?:first )?flat to the far side: {N}{U} if the round is {N}{U}; else the round as measured less {N}{U}\.", lambda s, *t: flats(s, "first", *t)),
        (rf"Turn {N}° for the next, (\d+) in all, at the same height(?:: {CRANK})?\.", lambda s, *t: flats(s, "turn", *t))],
    "setups[].operations[].flats.says": [(rf"[\w ]+, {N} (across|deep|to the far side)", lambda s, n, what: flats(s, what, n))],
    "setups[].operations[].knurl.recipe[]": [
        (rf"Over the points about {N}: .*", plain("knurl", "knurl.expected")),
        (rf"No center carries it, {N} diameters out of the jaws: .*", knurled)],
    "setups[].operations[].knurl.says": [(rf"[\w ]+, {N}(?: mm)? pitch", plain("knurl", "knurl.pitch"))],
    "setups[].operations[].undercut.recipe[]": [
        (rf"Nose radius {N}, its slopes ground to {N}° along the seat\. Touch the seat, in by {N} a side, .*", lambda s, *t: undercut(s, "nose", *t)),
        (rf"Then {N} into the face, and out along it at {N}° until it runs out, {N} up from the seat\.", lambda s, *t: undercut(s, "face", *t))],
    "setups[].operations[].undercut.says": [(r"(DIN 509 [EF]) [\d.x]+", lambda s, t: s.written(t))],
    "setups[].operations[].thread.pipe.recipe[]": [
        (rf"Near the depth, .* about (\d+)?([¼½¾])? turns, its face flush with the small end, one turn \({N}\) either way\.", lambda s, *t: pipe(s, "by hand", *t)),
        (rf"At least {N} of useful thread\.", lambda s, *t: pipe(s, "useful", *t))],
    "setups[].operations[].stop_before": [(rf"Let it cool until it feels cold\. (\d+) °([CF]) warm it reads {N} large\.", heat)],
    "setups[].operations[].remarks[]": [
        *ROUGH_CENTER,
        (rf"until no scale shows all round, not below {N}; .*", lambda s, t: s.near("not below", t, s.op["limits"]["min"])),
        (rf"corner at most {N}", corner),
        (rf"first cut under the scale: {N} a side or more", scale),
        (rf"first cut the full {N} a side, under the scale; its traces may show until {N} a side is off", scale),
        (rf"follow rest: jaws wider than {N} on the finished Ø {N}, .*", followed),
        (rf"follow rest: jaws wider than {N}, behind the tool on its tailstock side, on the finished Ø {N}, .* the work steps down to {N} at {N}: .*", at_the_step),
        (rf"\w+ and \w+ sweep Ø {N}(?:, what else stands in the way Ø {N})?: on the way in stay outside Ø {N}, come in only between {N} and {N}, and out again the same way(?:; both walls faced)?", swept),
        (rf"\w+ sweeps Ø {N}, \w+ Ø {N}(?:, what else stands in the way Ø {N})?: on the way in stay outside Ø {N}, come in only between {N} and {N}, and out again the same way(?:; both walls faced)?", swept),
        (rf"touch the high side, at {N}; the cut strikes once a turn down to {N}",
         lambda s, high, low: (s.near("high side", high, s.op["from_diameter"]), s.near("down to", low, s.op["from_diameter"] - 4 * s.op["throw"]))),
        (rf"turn the work on from (\w+) by {N}°, clockwise seen from the datum end(?:: {CRANK})?; never back", clocked),
        (rf"turned to size: the strip may take {N} and no more", lambda s, t: strip(s, "may", t)),
        (rf"the strip takes {N} off the diameter", lambda s, t: strip(s, "takes", t)),
        (rf"in {N}, to the middle", lambda s, deep: s.near("in to the middle", deep, s.op["from_diameter"] / 2)),
        (rf"in {N}, into the hole", lambda s, deep: s.near("into the hole", deep, s.op["travel"]))],
    "setups[].operations[].positions[].what": [(r"plunge (\d+)", plunge)],
    "setups[].operations[].taper.half_angle": [(r"(\d+)° (\d\d)′", lambda s, *t: taper(s, "angle", *t))],
    "setups[].operations[].taper.rate": [(r"(.*)", lambda s, *t: taper(s, "rate", *t))],
    "setups[].operations[].taper.ways[].because": [
        (rf"{N} long, (?:within|more than) the {N} a compound usually travels(?:; fed by hand)?", lambda s, *t: taper(s, "stroke", *t)),
        (rf"{N} is more than the tailstock travels, {N}", lambda s, *t: taper(s, "over", *t))],
    "setups[].operations[].why[].reason": [
        *ROUGH_CENTER,
        (r"(.*): cut before it what wants soft steel, after it what it would spoil", lambda s, t: s.written(t)),
        (rf"by the compound, whose slide is long enough for {N}: set over {N}, .*", lambda s, *t: taper(s, "compound, over", *t)),
        (rf"by the compound, whose slide is long enough for {N}: the tailstock would have to be set over {N}, more than its {N}", lambda s, *t: taper(s, "compound, over", *t)),
        (rf"by the taper attachment; set over, the tailstock would want {N}", lambda s, *t: taper(s, "attachment", *t)),
        (BARREL, give.barrel),
        (rf"last cuts of at most {N} a side: at {N} the work would give way by about {N}, {N} % of its band; so {BARREL}", give.lighter),
        (rf"cuts of at most {N} a side: under {N} the work would spring away by about {N}, more than half of what is left for the finish", give.rough_lighter),
        (rf"at the shop file's own {N} a side the work springs away by about {N}, more than half of what is left for the finish",
         lambda s, usual, gives: give.rough_lighter(s, None, usual, gives))],
    "inspection[].with": [],
}


def leaves(value, key):
    if isinstance(value, dict):
        for k, v in value.items():
            yield from leaves(v, f"{key}.{k}" if key else k)
    elif isinstance(value, list):
        for v in value:
            yield from leaves(v, key + "[]")
    elif isinstance(value, str):
        yield key, value


def told(s, key, text):
    if key not in SENTENCES or not re.search(r"\d", text):
        return
    for pattern, work in SENTENCES[key]:
        if m := re.fullmatch(pattern, text):
            try:
                return work(s, *m.groups())
            except (KeyError, TypeError, ValueError, IndexError, StopIteration) as e:
                return s.bad(f"{s.where}: {text!r}: {e!r}")
    s.bad(f"{s.where}: {text!r}: no way to work its numbers")


def check(plan, shop, overall, bar, same, bad):
    s = Said(plan, shop, overall, bar, same, bad)
    if not s.text:
        return
    for setup in plan["setups"]:
        s.setup, s.where = setup, f"setup {setup['number']}"
        for key, text in leaves({k: v for k, v in setup.items() if k != "operations"}, "setups[]"):
            told(s, key, text)
        for op in setup["operations"]:
            s.op, s.where = op, f"{op['number']} {op['verb']} {op['feature'] or ''}".strip()
            for key, text in leaves(op, "setups[].operations[]"):
                told(s, key, text)
    figures_assumed.check(s)
    for row in plan["inspection"]:
        s.where = f"inspection {row['letters']}"
        instrument(s, row)


def instrument(s, row):
    """`micrometer 0–1`: one of the shop's, and it reaches; wires are a thread's; a gauge has a name that is written."""
    text = row["with"]
    for name in re.findall(r"(?:plug|ring) gauge ([^,]*?)(?: or its screw|,|$)", text):
        # A coarse thread is written without its pitch and class.
        s.written(re.sub(r"Tr ", "Tr", name) if name in s.text else re.sub(r"x.*", "", name))
        text = text.replace(name, "")
    for wire, unit in re.findall(rf"wires {N}{U}", text):
        wires = {o["thread"]["wire"] for x in s.plan["setups"] for o in x["operations"] if "thread" in o and o["thread"]["wire"]}
        s.near("wires", wire, min(wires, key=lambda w: abs(w * (1 if not unit or unit.strip() == s.plan["units"] else 25.4 if unit.strip() == "mm" else 1 / 25.4) - float(wire)), default=None), unit)
        text = text.replace(f"wires {wire}", "")
    spans = []
    for low, high, unit in re.findall(rf"{N}–{N}{U}", text):
        kind = re.match(r"[a-z ]+?(?= \d)", row["with"]).group(0)
        ranges = [(float(a), float(b)) for k, a, b in s.shop.get("ranges", []) if k == kind]
        if (float(low), float(high)) not in ranges:
            s.bad(f"{s.where}: a {kind} {low} to {high}, which the shop has not")
        to_own = {None: 1.0, "": 1.0}.get(unit, 25.4 if unit.strip() == "mm" else 1 / 25.4) if (unit or "").strip() != s.plan["units"] else 1.0
        spans.append((float(low) - 1e-6, float(high) + 1e-6, to_own))
        text = text.replace(f"{low}–{high}", "")
    # Each limit is read by one of them; of two, each reads one.
    reads = lambda at: [a <= row["limits"][at] * own <= b for a, b, own in spans]
    if spans and row["limits"] and "wires" not in row["with"]:
        if not all(any(reads(at)) for at in ("min", "max")) or len(spans) == 2 and any(x and y for x, y in zip(reads("min"), reads("max"))):
            s.bad(f"{s.where}: {row['limits']} with {row['with']}")
    for reach, _ in re.findall(rf"that reaches {N}{U}", text):
        s.near("reach", reach, row["limits"]["max"])
        text = text.replace(reach, "")
    if re.search(r"\d", text):
        s.bad(f"{s.where}: {row['with']!r}: no way to work its numbers")
