"""A part description as rules_check.py needs it: sections, what lies on them, what is cut inside, wishes. Shares no line with turnwright's own reader.

Only the forms that the samples, tests/figures/parts and the generated parts write are read; anything else raises ValueError, so that nothing is passed over.
"""
import re

from figures_written import IT, ISO_2768_M, NUMBER, value

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
SECTIONS = ("turn", "thread", "relief", "taper", "knurl")
SLOTS = ("keyseat", "flat", "square", "hexagon", "cross hole", "tapped hole")
GROOVES = ("groove", "ring groove", "o-ring groove", "undercut")
# Words that take nothing away by an operation of their own.
SILENT = ("fillet", "center hole")


def pairs_of(text):
    """key: value pairs of the inside of { }, commas within braces left alone."""
    out, deep, start = {}, 0, 0
    for i, c in enumerate(text + ","):
        deep += (c == "{") - (c == "}")
        if c == "," and deep == 0:
            piece = text[start:i].strip()
            if piece:
                key, _, rest = piece.partition(":")
                out[key.strip()] = rest.strip()
            start = i + 1
    return out


def entries(lines):
    """The items of a list: each a dictionary, its first key the kind."""
    out = []
    for line in lines:
        body = line.strip()
        if not body:
            continue
        if body.startswith("- {"):
            out.append(pairs_of(body[3:-1]))
            continue
        if body.startswith("- "):
            out.append({})
            body = body[2:]
        key, _, rest = body.partition(":")
        out[-1][key.strip()] = rest.strip()
    return out


def blocks(text):
    """The top keys with the lines beneath each."""
    out, key = {}, None
    for line in text.splitlines():
        line = re.split(r"(?:^|\s)#", line)[0].rstrip()
        if re.match(r"\S.*?:", line):
            key, _, rest = line.partition(":")
            out[key] = [rest.strip()]
        elif key:
            out[key].append(line)
    return out


class Feature:
    def __init__(self, item):
        self.item, self.kind = item, next(iter(item))
        self.main = item[self.kind]
        self.letter, self.start, self.end = "", None, None

    def get(self, key):
        return self.item.get(key)


class Part:
    def __init__(self, text):
        top = blocks(text)
        self.inch = top["units"][0] == "in"
        self.overall = self.size(top["overall"][0])
        self.features = [Feature(i) for i in entries(top["features"][1:])]
        self.inside = [Feature(i) for i in entries(top.get("inside", [""])[1:])]
        for f in self.features:
            known = SECTIONS + SLOTS + GROOVES + SILENT + ("chamfer", "crown")
            if f.kind not in known:
                raise ValueError(f"no reader for {f.kind}")
        self.sections = [f for f in self.features if f.kind in SECTIONS]
        at = 0.0
        for f in self.sections:
            f.start = at
            to = f.get("to")
            at = f.end = self.overall if to == "end" else at + self.size(f.get("long")) if f.get("long") else self.size(to)
        lettered = self.sections + [f for f in self.features if f.kind in SLOTS + GROOVES]
        lettered += [f for f in self.inside if f.kind not in ("chamfer", "countersink")]
        for n, f in enumerate(lettered):
            f.letter = LETTERS[n % 24] if n < 24 else LETTERS[n // 24 - 1] + LETTERS[n % 24]
        for f in self.features:
            place = f.get("from") or f.get("at")
            if f.kind not in SECTIONS + SILENT and place:
                f.start = self.place(place)
        wishes = " ".join(top.get("plan", []))
        self.off = set(re.findall(r"[\w-]+", (re.search(r"off:\s*\[(.*?)\]", wishes) or [None, ""])[1]))
        # [[keyseat, finish its seat]]: by names or letters.
        self.before = [tuple(w.strip() for w in pair) for pair in re.findall(r"\[([^\[\],]+),([^\[\],]+)\]", (re.search(r"before:\s*((?:-?\s*\[+[^\]]*\]+,?\s*)+)", wishes) or [None, ""])[1])]
        self.drawn_bar = bool(re.search(r"cold[- ]drawn", top.get("material", [""])[0]))
        self.part_off = "part off: true" in wishes or "part off: yes" in wishes
        self.first_far = "first end: far" in wishes
        written = top.get("stock", [""])[0]
        stock = re.match(rf"\w*\s*({NUMBER})", written)
        self.bar = self.size(written) if stock else None
        self.stock_kept = not re.match(r"(hexagon|square|tube)", written)
        self.scale = bool(re.search(r"hot[- ]rolled|as cast|\bcast\b", top.get("material", [""])[0]))
        lim = top.get("tolerances", [""])[0]
        m = re.search(rf"diameters:\s*±\s*({NUMBER})", lim)
        self.general = value(m.group(1)) if m else None
        self.iso_2768 = "2768-m" in lim
        if self.bar is None:
            # Where no bar is stated: the largest section with a roughing allowance over it (common practice, no source).
            self.bar = max((self.most(f.main) for f in self.sections if f.kind == "turn"), default=0.0) + (0.030 if self.inch else 0.8)

    def size(self, text):
        """The first number, in the part's unit."""
        m = re.search(rf"-?{NUMBER}", text)
        n = value(m.group(0).lstrip("-")) * (-1 if m.group(0).startswith("-") else 1)
        own = re.match(r"\s*(mm|in)\b", text[m.end():])
        if own and own.group(1) != ("in" if self.inch else "mm"):
            n = n / 25.4 if self.inch else n * 25.4
        return n

    def place(self, text):
        """`1.5`, `0.5 from left seat end` or `left seat end`."""
        named = re.search(r"(?:^| from )([A-Za-z].*?) (start|end)$", text)
        off = self.size(text) if re.match(r"\s*[-.\d]", text) else 0.0
        if not named:
            return off
        host = next(f for f in self.sections if named.group(1) in (f.get("name"), f.letter))
        return off + (host.start if named.group(2) == "start" else host.end)

    def limits(self, text):
        """Least and most of a drawn diameter; none where the general ones of a standard hold."""
        if m := re.search(rf"({NUMBER})\.\.({NUMBER})", text):
            return value(m.group(1)), value(m.group(2))
        unit = 25.4 if "mm" in text and self.inch else 1.0
        nominal = self.size(text)
        if m := re.search(rf"±\s*({NUMBER})", text):
            return nominal - value(m.group(1)) / unit, nominal + value(m.group(1)) / unit
        if m := re.search(rf"\+\s*({NUMBER})\s*/\s*([-+]?)({NUMBER})", text):
            low = value(m.group(3)) * (1 if m.group(2) == "+" else -1)
            return nominal + low / unit, nominal + value(m.group(1)) / unit
        if m := re.search(r"\b([a-zA-Z]{1,2})(\d{1,2})\b", text):
            mm = nominal * (25.4 if self.inch else 1)
            band = self.band(mm, int(m.group(2))) / (25.4 if self.inch else 1)
            letter = m.group(1)
            # Where the zone lies is not read here: a zone named h hangs under its size, H stands over it, the others lie near.
            around = {"h": (-band, 0.0), "H": (0.0, band)}.get(letter, (-4 * band, 4 * band))
            return nominal + around[0], nominal + around[1]
        if self.general is not None:
            return nominal - self.general, nominal + self.general
        return None

    def most(self, text):
        """The largest that a diameter may be."""
        if lim := self.limits(text):
            return lim[1]
        return self.size(text) + (next((half for most, half in ISO_2768_M if self.size(text) <= most), 0.0) if self.iso_2768 else 0.0)

    @staticmethod
    def band(mm, grade):
        return next(row[grade - 5] for most, row in sorted(IT.items()) if mm <= most) / 1000

    def is_close(self, text):
        """A band of a thousandth of an inch or less, or a fit of IT7 or finer."""
        if m := re.search(r"\b([a-zA-Z]{1,2})(\d{1,2})\b", text.replace(" mm", "")):
            mm = self.size(text) * (25.4 if self.inch else 1)
            return int(m.group(2)) <= 7 or self.band(mm, int(m.group(2))) <= 0.0254 + 1e-9
        lim = self.limits(text)
        return lim is not None and (lim[1] - lim[0]) * (25.4 if self.inch else 1) <= 0.0254 + 1e-9
