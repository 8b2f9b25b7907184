#!/usr/bin/env python3
"""Work a tolerance chart again, without turnwright.

Usage: chart_check.py [FILE ...]   (standard input when no file is named)
Reads replies of `chart --format json`, or of `plan --format json` (their `chart.whole`), one or a list of them. From faces, cuts,
their means and their tolerances it works every distance and every stock anew, and the verdicts; then, where no stock is asked for,
it shares the open tolerances out by filling: all grow together until a distance is full. Everything is a fraction; there is no
linear program. Of a plan it also asks, by the plan's own positions and nothing of the chart's, which face each cut is measured from, and that its mean is
what lies between the two. Exit 1 when anything differs, 2 when unreadable.
"""
import json
import sys
from fractions import Fraction


class Chart:
    def __init__(self, c, units):
        self.c, self.units = c, units
        self.names = [f["face"] for f in c["faces"]]
        self.order = {name: i for i, name in enumerate(self.names)}
        self.looks = {f["face"]: f["looks"] for f in c["faces"]}
        # A state of a face: the tree it hangs in, and its place there as cuts with signs.
        self.last, self.trees = {}, 0
        self.removals = {}
        # JSON holds lengths to 1e-7 in or 1e-6 mm; a sum of a few may be a few of these out.
        self.near = Fraction(1, 10**6) if units == "in" else Fraction(1, 10**5)
        for i in sorted(range(len(c["cuts"])), key=lambda i: c["cuts"][i]["op"]):
            self.cut(i)

    def state(self, face):
        if face not in self.last:
            self.last[face] = (self.trees, {})
            self.trees += 1
        return self.last[face]

    def cut(self, i):
        cut = self.c["cuts"][i]
        face = cut["cut"]
        inward = 1 if self.looks[face].startswith("datum") else -1
        if cut["by_stock"]:
            start, sign = self.state(face), inward
        else:
            start = self.state(cut["from"])
            sign = 1 if self.order[face] > self.order[cut["from"]] else -1
        old = self.last.get(face)
        tree, place = start
        new = (tree, {**place, i: place.get(i, 0) + sign})
        if old is not None:
            self.removals[i] = (self.between(old, new), inward)
        self.last[face] = new

    @staticmethod
    def between(a, b):
        """Cuts from place a to place b, with signs; none where the two hang in different trees."""
        if a is None or b is None or a[0] != b[0]:
            return None
        path = {k: b[1].get(k, 0) - a[1].get(k, 0) for k in a[1].keys() | b[1].keys()}
        return {k: n for k, n in path.items() if n}

    def wide(self, path, free=None):
        """Worst case of a path: of all its cuts, or of those that are not free."""
        kept = [k for k in path if free is None or k not in free]
        return sum((abs(path[k]) * self.c["cuts"][k]["tolerance"] for k in kept), Fraction(0))

    def mean(self, path):
        return sum((n * self.c["cuts"][k]["mean"] for k, n in path.items()), Fraction(0))

    def paths(self):
        for r in self.c["results"]:
            path = self.between(self.last.get(r["from"]), self.last.get(r["to"]))
            yield r, path, 1 if self.order[r["to"]] > self.order[r["from"]] else -1


def differ(a, b, near):
    return (a is None) != (b is None) or (a is not None and abs(a - b) > near)


def results(chart):
    for r, path, sign in chart.paths():
        name = f'{r["from"]} to {r["to"]}'
        known = path is not None and all(chart.c["cuts"][k]["mean"] is not None for k in path)
        mean = sign * chart.mean(path) if known else None
        half = chart.wide(path) if path is not None else None
        if known and differ(mean, r["mean"], chart.near):
            yield f"{name}: mean {r['mean']}, worked {mean}"
        if differ(half, r["plus_minus"], chart.near):
            yield f"{name}: ±{r['plus_minus']}, worked {half}"
        if half is not None:
            squares = sum((chart.c["cuts"][k]["tolerance"] ** 2 for k in path), Fraction(0))
            if abs(float(squares) ** 0.5 - float(r["rss"])) > float(chart.near):
                yield f"{name}: root sum square {r['rss']}"
        wanted = r["wanted"]
        if wanted and known:
            room = min(wanted["max"] - mean, mean - wanted["min"]) - half
            if abs(room) > chart.near and (room >= 0) != r["guaranteed"]:
                yield f"{name}: guaranteed {r['guaranteed']}, but {float(room)} is left"


def stock(chart):
    rows = iter(chart.c["stock"])
    for i, cut in enumerate(chart.c["cuts"]):
        if i not in chart.removals:
            continue
        row, (path, inward) = next(rows, None), chart.removals[i]
        if row is None or (row["op"], row["face"]) != (cut["op"], cut["cut"]):
            yield f'stock of {cut["op"]} {cut["cut"]}: its row is {row and (row["op"], row["face"])}'
            return
        if path is None or any(chart.c["cuts"][k]["mean"] is None for k in path):
            continue
        mean, half = inward * chart.mean(path), chart.wide(path)
        if differ(mean, row["mean"], chart.near) or differ(mean - half, row["min"], chart.near):
            yield f'stock of {cut["op"]} {cut["cut"]}: {float(row["mean"])} worked {float(mean)} ±{float(half)}'
        if row["least"] is not None and abs(mean - half - row["least"]) > chart.near:
            if (mean - half >= row["least"]) != row["enough"]:
                yield f'stock of {cut["op"]} {cut["cut"]}: enough {row["enough"]}'


def capabilities(chart, free):
    said = {k: chart.c["cuts"][k]["can_hold"] for k in free}
    coarsest = max((c for c in said.values() if c), default=None)
    return {k: c or coarsest or Fraction(1) for k, c in said.items()}, coarsest is not None


def shares(chart):
    """Max-min by filling, and the factor."""
    free = {i for i, c in enumerate(chart.c["cuts"]) if c["set_here"]}
    if not free or any(row["least"] is not None for row in chart.c["stock"]):
        return
    caps, known = capabilities(chart, free)
    bounds = []
    for r, path, sign in chart.paths():
        if r["wanted"] and path and r["mean"] is not None and free & path.keys():
            mean = r["mean"]
            room = min(r["wanted"]["max"] - mean, mean - r["wanted"]["min"]) - chart.wide(path, free)
            # What leaves its cuts nothing is missed, whatever they are held to.
            if room > 0:
                bounds.append((room, {k: abs(n) for k, n in path.items() if k in free}))
    level, first = {}, None
    while True:
        still = [(room - sum(n * level[k] * caps[k] for k, n in p.items() if k in level), p) for room, p in bounds]
        still = [(room, {k: n for k, n in p.items() if k not in level}) for room, p in still]
        rates = [(room / sum(n * caps[k] for k, n in p.items()), p) for room, p in still if p]
        if not rates:
            break
        least = min(rate for rate, _ in rates)
        first = least if first is None else first
        for rate, p in rates:
            if rate == least:
                level.update((k, least) for k in p)
    for k, share in level.items():
        cut = chart.c["cuts"][k]
        # A cut that is left nothing keeps what can be held: the distance is told as missed.
        if share and abs(share * caps[k] - cut["tolerance"]) > chart.near * 2:
            yield f'cut {cut["op"]} {cut["cut"]}: ±{float(cut["tolerance"])}, by filling ±{float(share * caps[k])}'
    proof = chart.c.get("factor_proof")
    if known and first is not None:
        if chart.c["factor"] is None or abs(chart.c["factor"] - first) > Fraction(1, 10**5) * max(1, first):
            yield f'factor {chart.c["factor"]}, by filling {float(first)}'
        if proof and abs(Fraction(proof["at_most"]) - first) > Fraction(1, 10**6) * max(1, first):
            yield f'proven at most {proof["at_most"]}, by filling {first}'


# The face of the chart that a position's zero is.
ZERO = {"datum face": ("datum face", False), "far face": ("far face", False), "corrected": ("far face", True)}


def edges(reply):
    """Each cut is measured from the face its operation touches, and is what is drawn between its faces."""
    chart = reply["chart"]
    wide = Fraction(2, 100) if reply["units"] == "in" else Fraction(5, 10)
    made = {r["op"] for r in chart["cuts"]}
    last = {r["cut"]: r["op"] for r in chart["cuts"]}
    for setup in reply["setups"]:
        for op in setup["operations"]:
            zeros = {ZERO[p["zero"]] for p in op["positions"] if p.get("zero")}
            if setup["zero"] == "datum face, off the lathe":
                zeros = {("datum face", False)}
            rows = [r for r in chart["cuts"] if r["op"] == op["number"] and op["number"] in made]
            own = {r["cut"] for r in rows}
            for r in rows:
                name = f'op {op["number"]}: {r["cut"]} from {r["from"]}'
                if r.get("from_at") is None or op["verb"] in ("face", "part off"):
                    continue
                if zeros and r["from"] not in own and (r["from"], "zero" in r) not in zeros:
                    yield f"{name}, but its places count from {sorted(zeros)}"
                drawn = abs(r["cut_at"] - r["from_at"])
                # The last cut of a face is aimed at the middle of its limits, one before it short of the face.
                if r["mean"] is not None and last[r["cut"]] == op["number"] and abs(r["mean"] - drawn) > wide:
                    yield f'{name}: mean {float(r["mean"])}, but they lie {float(drawn)} apart'
    for r in chart["results"]:
        if r["wanted"] and not r["path"]:
            yield f'{r["from"]} to {r["to"]}: no cuts make it, and nothing says so'


def check(reply):
    c = reply["chart"]["whole"] if "setups" in reply else reply
    chart = Chart(c, reply["units"])
    wrong = [w for part in (results, stock, shares) for w in part(chart)]
    wrong += edges(reply) if "setups" in reply else []
    name = f'{reply.get("part")}: {len(c["cuts"])} cuts, {len(c["results"])} distances'
    print("\n".join([f"{name}: WRONG"] + [f"  {w}" for w in wrong]) if wrong else f"{name}: agrees")
    return not wrong


def main(files):
    good = True
    for text in [open(f, encoding="utf-8").read() for f in files] or [sys.stdin.read()]:
        read = json.loads(text, parse_float=Fraction, parse_int=Fraction)
        for reply in read if isinstance(read, list) else [read]:
            good &= check(reply)
    return 0 if good else 1


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except (OSError, ValueError, KeyError, TypeError) as why:
        print(f"cannot be read: {why!r}")
        sys.exit(2)
