"""What a plan took because nobody said (`assumed[].value`), worked again from the description, the shop file and the plan's own operations. Used by figures_check.py.

Allowances, minutes, shares of the turning speed, what jaws and dog cover: common practice, no source, but for the finish allowance (1/32 in, NAVEDTRA 14345). Listed speeds of
high-speed steel: a lathe maker's manual by kind of metal, moved by grade from memory; mild steel 90 ft/min. Power: P = kc x depth x feed x speed. First bending speed of a
bar that is built in at one end: 3.516 / (2 pi) sqrt(E I / (m L4)) (Roark and Young). .6134 P = 7/8 H - H/6 (ISO 68-1, ASME B1.1, rounded root).
"""
import math
import re

import figures_give
from figures_written import DENSITY

N = r"(\d*\.?\d+)"
# ft/min, turning; the second pre-hardened.
LISTED = {"12L14": 130.0, "1018": 90.0, "1045": 90.0, "C45": 90.0, "4140": 70.0, "1.4404": 60.0}
PRE_HARDENED = 0.6
MILD, FINISHING = 90.0, 1.25


def metal(s):
    """Its name, and whether it is bought hard."""
    written = (re.search(r"^material:\s*(.*)$", s.text, re.M) or [None, ""])[1]
    return (written.split() or [""])[0], "pre-hardened" in written


def share(s):
    name, hard = metal(s)
    return LISTED[name] * (PRE_HARDENED if hard else 1.0) / MILD


def in_shop(s):
    """The shop's own surface speed, in ft/min or m/min as the part's unit has it."""
    own = s.shop.get("units", s.plan["units"])
    feet = s.shop["hss"] * (1.0 if own == "in" else 1 / 0.3048)
    return feet if s.inch else feet * 0.3048


def wished(s, key, usual):
    """As the description wishes it, else the usual."""
    found = re.search(rf"\b{key}:\s*{N}", s.text)
    return float(found.group(1)) if found else usual


def fixed(*values):
    """Numbers that are the trade's, in inches and millimetres, or the same in both."""
    def look(s, *told):
        for number, v in zip(told, values):
            if number is not None:
                s.exactly("the usual", number, s.pick(*v) if isinstance(v, tuple) else v)
    return look


def allowance(key, *usual):
    return lambda s, told: s.exactly(key, told, wished(s, key, s.pick(*usual)))


def speed(s, told, percent=None):
    s.near("surface speed", told, in_shop(s) * (share(s) if percent else 1.0))
    if percent:
        s.near("share of the shop's own", percent, 100.0 * share(s))
    elif abs(share(s) - 1.0) > 1e-9:
        s.bad(f"{s.where}: this metal is turned at {share(s):.2f} of the shop's speed")


def of_the_handbook(s, name, rough, finish):
    feet = LISTED[name] * (PRE_HARDENED if metal(s)[1] else 1.0)
    for what, told, v in (("turning", rough, feet), ("finishing", finish, feet * FINISHING)):
        s.near(what, told, v if s.inch else v * 0.3048)


def power(s, told, part):
    """The deepest cut that so much of the power drives at the roughing feed, in steps of the dial."""
    s.exactly("share of the power", part, 0.7)
    feed = max(o["feed"] for x in s.plan["setups"] for o in x["operations"] if o["verb"] == "rough" and o["feed"])
    mm = 25.4 if s.inch else 1.0
    metres = in_shop(s) * share(s) * (0.3048 if s.inch else 1.0)
    kc = figures_give.specific(figures_give.METALS[metal(s)[0]], feed * mm)
    deep = 0.7 * s.shop["watts"] * 60.0 / (kc * feed * mm * metres) / mm
    step = s.pick(0.001, 0.02)
    s.near("rough cut", told, math.floor(deep / step + 1e-9) * step)


def wire(s, told, name):
    threads = [o["thread"] for x in s.plan["setups"] for o in x["operations"] if "thread" in o and o["thread"]["designation"] == name]
    s.near("best wire", told, threads[0]["best_wire"] if threads else None)


def blanks(s, listed):
    """Each letter's own: the diameter that its thread is begun from."""
    for letter, told in re.findall(rf"(\w+) {N}", listed):
        sizes = [o["from_diameter"] for x in s.plan["setups"] for o in x["operations"] if o["verb"] == "thread" and o["feature"] == letter]
        s.near(f"blank of {letter}", told, sizes[0] if sizes else None)


def centers(s, listed):
    holes = [o["center"] for x in s.plan["setups"] for o in x["operations"] if "center" in o and o["center"]["usual_for"] is not None]
    for size, told in re.findall(rf"([\w. /]+?) for Ø {N}", listed):
        those = [c["usual_for"] for c in holes if c["size"] == size.strip()]
        s.near(f"center {size}", told, min(those, key=lambda v: abs(v - float(told)), default=None))


def balance(s, rpm):
    """e w2 = g / 4 of the largest throw."""
    throws = [x["thrown"]["throw"] for x in s.plan["setups"] if x["thrown"]] + [o["throw"] for x in s.plan["setups"] for o in x["operations"] if o["throw"]]
    metres = max(throws) * (0.0254 if s.inch else 0.001)
    s.near("turns a minute", rpm, math.sqrt(9.80665 / 4.0 / metres) * 30.0 / math.pi)


def behind(s, allowed, out, bends):
    """Half of the first bending speed of what hangs out of the spindle."""
    name = metal(s)[0]
    d, long = s.bar * (0.0254 if s.inch else 0.001), float(out) * (0.0254 if s.inch else 0.001)
    w = 3.516 * math.sqrt(figures_give.METALS[name][2] * 1e6 * d * d / 16.0 / DENSITY[name] / long ** 4)
    s.same(s.where, "begins to bend", float(bends), w * 30.0 / math.pi, 0.02 * float(bends))
    s.exactly("half of that, to whole turns", allowed, math.floor(float(bends) / 2.0 + 0.26))


def between_lines(s, division, unit, listed):
    """The dial's own division, in its own unit; each reading told is one of its operation's, and falls between two lines."""
    own = float(s.shop["carriage dial"]["division"])
    s.exactly("a line", division, own)
    if unit != s.shop.get("units", s.plan["units"]):
        s.bad(f"{s.where}: lines in {unit}")
    ops = {o["number"]: o for x in s.plan["setups"] for o in x["operations"]}
    for told, number in re.findall(rf"{N} \((\d+)\)", listed or ""):
        read = [p["dial"]["reading"] for p in ops.get(int(number), {"positions": []})["positions"] if p["dial"]]
        s.near(f"read at {number}", told, min(read, key=lambda v: abs(v - float(told)), default=None))
        lines = float(told) / own
        if abs(lines - round(lines)) < 1e-3:
            s.bad(f"{s.where}: {told} lies on a line")


def in_the_spindle(s, behind, carries):
    """The most that stands behind the jaws; what a spindle carries: common practice, no source."""
    s.near("behind the jaws", behind, max(x["behind_jaws"] for x in s.plan["setups"] if x["behind_jaws"]))
    s.exactly("the spindle carries", carries, s.pick(15.0, 380.0))


def hangs_out(s, allowed, carries, out, bends):
    s.exactly("the spindle carries", carries, s.pick(15.0, 380.0))
    behind(s, allowed, out, bends)


def overhung(s, listed):
    """Those that stand more than three of their own diameters out of a chuck, no center or rest carrying them: each whose speeds were halved for it, and no other holding."""
    told = {int(n) for n in re.findall(r"\d+", listed)}
    slow = {x["number"] for x in s.plan["setups"] if any(o["speed_limit"] == "overhang" for o in x["operations"])}
    out = {x["number"] for x in s.plan["setups"] if figures_give.bends(x["holding"] or "") == "chuck" and x["stick_out"] and x["grip"]
           and x["stick_out"] > 3.0 * min([x["grip"]["diameter"]] + [o["to_diameter"] for y in s.plan["setups"] for o in y["operations"] if o["to_diameter"] and not o["inside"]])}
    if not slow <= told or not told <= out:
        s.bad(f"{s.where}: setups {sorted(told)}, slowed {sorted(slow)}, standing far out {sorted(out)}")


def indicator(s, *told):
    """It goes as far as one of the shop's; blocks of its whole travel."""
    reach = max(float(b) - float(a) for kind, a, b in s.shop["ranges"] if kind.strip() == "dial indicator")
    for n in told:
        s.near("travel", n, s.from_shop(reach))


def rest(s, told):
    wide = [abs(x["rest"]["to"] - x["rest"]["from"]) for x in s.plan["setups"] if x["rest"] and x["rest"]["rest"] != "follow"]
    s.near("its jaws", told, min(wide, key=lambda w: abs(w - float(told)), default=None))


def depth(s, of_pitch, whole, half):
    """The compound stands at half of the thread's angle, of a 60° thread half a degree less."""
    if of_pitch:
        s.near("height", of_pitch, math.sqrt(3.0) / 2.0 * (7.0 / 8.0 - 1.0 / 6.0))
    s.exactly("compound", float(whole) + (0.5 if half else 0.0), 29.5 if of_pitch else 14.5 if half else 15.0)


def last_cut(s, radial, deep, fed):
    give = figures_give.Give(s.plan, s.shop, s.bar)
    s.exactly("radial", radial, figures_give.RADIAL)
    s.near("last cuts", deep, give.finish / (25.4 if s.inch else 1.0))
    s.near("fed", fed, give.feed / (25.4 if s.inch else 1.0))


VALUES = {
    "Finish allowance": [(rf"{N} on the diameter after roughing", allowance("finish allowance", 0.030, 0.8))],
    "Face allowance": [(rf"{N} left on shoulders after roughing", allowance("face allowance", 0.020, 0.5))],
    "Polish allowance": [(rf"{N} on the diameter: the tool turns to size, .*", allowance("polish allowance", 0.0, 0.0))],
    "Minutes": [(rf"setup {N}, tool {N}, measurement {N}", fixed(8.0, 1.0, 0.5))],
    "Handling": [(rf"{N} minutes a cut to set it and come back(?:; by hand {N} a turn in)?(?:; {N} drilling and milling along)?(?:; a tap {N} turns a minute)?"
                  rf"(?:; slots by half a cutter, flats by {N})?", fixed(0.3, (0.002, 0.05), (0.004, 0.1), 20.0, (0.060, 1.5)))],
    "Room before the jaws": [(N, fixed((0.250, 6.0)))],
    "Jaws": [(rf"grip {N} of the work", fixed((1.000, 25.0)))],
    "Dog": [(rf"covers {N} of the work", fixed((0.600, 15.0)))],
    "Steady rest": [(rf"its jaws cover {N} of the work", rest)],
    "Surface speed": [(rf"every tool is high-speed steel, at the shop file's {N} (?:ft|m)/min", speed),
                      (rf"every tool is high-speed steel, at the shop file's {N} (?:ft|m)/min: its own(?:, slowed| for mild steel, raised) to {N} % for this metal", speed),
                      (rf"HSS in (\S+) at {N} (?:ft|m)/min, finishing {N} (?:ft|m)/min", of_the_handbook)],
    "Slower cuts": [(r"(?:(?:(?:grooving|chamfering|threading)(?:, )?)+ at 1/(\d)(?:, )?)?(?:parting at 1/(\d)(?:, )?)?(?:drilling at (\d)/(\d))? of it", fixed(4.0, 2.0, 4.0, 5.0))],
    "Feeds": [(rf"rough {N}, finish {N} a turn", fixed((0.008, 0.2), (0.003, 0.08)))],
    "Rough cut": [(rf"at most {N} a side: what {N} of the lathe's power drives", power), (rf"at most {N} a side", fixed((0.060, 1.5)))],
    "Carriage dial": [(rf"not told: lengths are read on the indicator on the bed, beyond {N} on blocks of {N}; .*", indicator),
                      (rf"a line every {N} (in|mm); (?:read between lines, by eye: (.*)|every reading that is no multiple of it is read between lines, by eye)", between_lines)],
    "Thread depth": [(rf"{N} P, compound at (\d+)(½)?°; the wires decide", depth),
                     (r"total height, compound at (\d+)(½)?°; the wires decide", lambda s, *t: depth(s, None, *t))],
    "Wires": [(rf"{N} for (.*)", wire)],
    "Thread blanks": [(r"(.*), a little under the largest major Ø", blanks)],
    "Center holes": [(r"(.*), as the description has no `center hole`", centers)],
    "Out of balance": [(rf"no faster than {N} rpm: its pull is then a quarter of its weight, e ω² = g / (4)", lambda s, rpm, _: balance(s, rpm))],
    "Bar behind the spindle": [(rf"no faster than {N} rpm: beyond the {N} that jaws and spindle carry, {N} of it hangs out of the rear and begins to bend at {N}", hangs_out),
                               (rf"{N} of it behind the jaws, in a spindle taken to carry {N}: .*", in_the_spindle)],
    "Overhang": [(r"half of the speed in setup (.*): too far out of the jaws without a center", overhung)],
    "Give of the work": [(rf"{N} of the cutting force is radial; last cuts of {N} a side, {N} a turn", last_cut)],
    "Lighter last cuts": [(rf"at most {N}, none lighter than the cross dial sets", fixed(8.0))],
    "Roughing slender work": [(rf"the work springs away by no more than half of the finish allowance, {N} of the force radial", fixed(figures_give.RADIAL))],
}


def check(s):
    """`s` is what figures_sentences.py draws on."""
    for a in s.plan["assumed"]:
        s.where = f"assumed {a['what']}"
        if not re.search(r"\d", a["value"]):
            continue
        for pattern, work in VALUES.get(a["what"], []):
            if m := re.fullmatch(pattern, a["value"]):
                try:
                    work(s, *m.groups())
                except (KeyError, TypeError, ValueError, IndexError) as e:
                    s.bad(f"{s.where}: {a['value']!r}: {e!r}")
                break
        else:
            s.bad(f"{s.where}: {a['value']!r}: no way to work its numbers")
