#!/usr/bin/env python3
"""Spoil the numbers of plans one by one, and see whether figures_check.py notices.

Usage: figures_spoil.py NUMBERS.csv SENTENCES.csv INSTANCES PLAN.json SHOP.yaml|- MARKS.json [PLAN SHOP MARKS ...]
Of every key that NUMBERS.csv calls `again: yes`, INSTANCES numbers over all plans are spoilt in several ways, and the second reckoning must
notice at least one when two digits change places or it is doubled; of those in FINE also one more in the last place that is printed. With INSTANCES 0 nothing is spoilt: the list alone is held against the plans.
SENTENCES.csv lists the keys of texts with digits in them likewise: of those that are worked again, the last digit of each number is spoilt.
Prints the share noticed by kind. Exit 1 with the keys that went unnoticed, or that are not in the list, 2 when unreadable.
"""
import csv
import json
import os
import re
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import figures_check  # noqa: E402

ELSEWHERE = ("certificate", "certificates_beside", "chart", "findings", "fewest_setups_certificate", "without_a_holding", "compared", "chart_answers", "retarget")


# What the hands set or measure by: diameters, dials, carriage, wires, depths of keyseats. One in the last place printed is a spoilt part, and must be noticed.
FINE = ("setups[].operations[].to_diameter", "setups[].operations[].from_diameter", "setups[].operations[].positions[].carriage",
        "setups[].operations[].positions[].dial.divisions", "setups[].operations[].positions[].dial.reading",
        "setups[].operations[].cross_dial.divisions", "setups[].operations[].cross_dial.infeed", "setups[].operations[].cross_dial.from_zero.divisions",
        "setups[].operations[].cross_dial.from_zero.reading", "setups[].operations[].thread.best_wire", "setups[].operations[].thread.over_wires.max",
        "setups[].operations[].thread.over_wires.min", "setups[].operations[].keyseat.depth_from_top", "setups[].operations[].keyseat.depth_at_side",
        "setups[].operations[].keyseat.across_bottom", "setups[].operations[].keyseat.side_touch", "bar.density_kg_m3", "bar.mass", "bar.mass_other", "bar.saw_least", "bar.wants[].length")


def leaves(value, path, key, out):
    if isinstance(value, dict):
        for k, v in value.items():
            leaves(v, path + [k], f"{key}.{k}" if key else k, out)
    elif isinstance(value, list):
        for i, v in enumerate(value):
            leaves(v, path + [i], key + "[]", out)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        out.append((key, path, value))


def texts(value, path, key, out):
    """Every text with a digit."""
    if isinstance(value, (dict, list)):
        for k, v in value.items() if isinstance(value, dict) else enumerate(value):
            texts(v, path + [k], (f"{key}.{k}" if key else k) if isinstance(value, dict) else key + "[]", out)
    elif isinstance(value, str) and re.search(r"\d", value):
        out.append((key, path, value))


def spoilt_texts(value):
    """The text with the last digit of one number another: each number in turn."""
    for m in re.finditer(r"(?<![\w.])\d*\.?\d+", value):
        at = m.end() - 1
        yield value[:at] + str((int(value[at]) + 3) % 10) + value[at + 1:]


class Sentences:
    """What is told in words: which keys there are, and whether their numbers are looked at."""

    def __init__(self, rows):
        self.rows, self.met, self.strange, self.seen, self.taken = rows, set(), set(), {}, {}

    def look(self, plan, most, wrong):
        found = []
        texts({k: v for k, v in plan.items() if k not in ELSEWHERE}, [], "", found)
        self.strange |= {key for key, _, _ in found} - set(self.rows)
        self.met |= {key for key, _, _ in found} & set(self.rows)
        for key, path, value in found:
            kind = re.sub(r"\d*\.?\d+", "#", value)
            if self.rows.get(key, {}).get("again") != "yes" or self.taken.get((key, kind), 0) >= most:
                continue
            self.taken[key, kind] = self.taken.get((key, kind), 0) + 1
            for bad in spoilt_texts(value):
                put(plan, path, bad)
                a, b = self.seen.get(key, (0, 0))
                self.seen[key] = (a + wrong(), b + 1)
            put(plan, path, value)

    def told(self):
        """Prints what it found; the lines that are faults."""
        a, b = (sum(n[i] for n in self.seen.values()) for i in (0, 1))
        shares = sorted((x / y, key) for key, (x, y) in self.seen.items())
        print(f"last digit of a number in a sentence: {a} of {b} noticed, {100 * a / max(b, 1):.1f} %; least: " + "; ".join(f"{k} {100 * s:.0f} %" for s, k in shares[:6]))
        kept = [r["again"] for r in self.rows.values()]
        print(f"{kept.count('yes')} keys of sentences are worked again, {kept.count('no')} are not")
        faults = [f"not in the list of sentences: {k}" for k in sorted(self.strange)]
        faults += [f"in the list of sentences, and in no plan: {k}" for k in sorted(set(self.rows) - self.met)]
        faults += [f"said to be worked again, and spoiling it goes unnoticed: {k}" for s, k in shares if s < 0.5]
        return faults + ([f"of numbers in sentences only {a} of {b} are noticed"] if a < 0.9 * b else [])


def swapped(value):
    """Two digits of it change places, the first two that differ."""
    text = repr(value)
    for i, (a, b) in enumerate(zip(text, text[1:])):
        if a.isdigit() and b.isdigit() and a != b:
            return json.loads((text[:i] + b + a + text[i + 2:]).lstrip("0") or "0") if text[0] != "0" and b != "0" else value + 9
    for i in range(len(text) - 2):
        if text[i + 1] == "." and text[i].isdigit() and text[i + 2].isdigit() and text[i] != text[i + 2]:
            return float(text[:i] + text[i + 2] + "." + text[i] + text[i + 3:])
    return value + 9 if isinstance(value, int) else None


def kinds(units, overall):
    width = 0.093 if units == "in" else 3.0

    def last(v):
        """One more in the last digit that is printed: at most a thousandth of an inch, a hundredth of a millimetre."""
        places = len(repr(v).split(".")[1]) if "e" not in repr(v) else 9
        return 10.0 ** -min(places, 3 if units == "in" else 2)
    return {
        "two digits change places": swapped,
        "doubled": lambda v: v * 2 if v else None,
        "halved": lambda v: v / 2 if v else None,
        "counted from the other end": lambda v: overall - v if isinstance(v, float) and abs(overall - 2 * v) > 0.02 else None,
        "a tool's width off": lambda v: v + width if isinstance(v, float) else None,
        "inches for millimetres": lambda v: v * 25.4 if v else None,
        "one in the last place printed": lambda v: v + (last(v) if isinstance(v, float) else 1),
    }


def put(tree, path, value):
    for step in path[:-1]:
        tree = tree[step]
    tree[path[-1]] = value


def faulty(plan, shop, marks):
    try:
        return bool(figures_check.check(plan, shop, marks)[1])
    except (ValueError, ZeroDivisionError, KeyError, IndexError, OverflowError, TypeError):
        return True


def main():
    rows, said = ({r["key"]: r for r in csv.DictReader(l for l in open(path, encoding="utf-8") if not l.startswith("#"))} for path in sys.argv[1:3])
    most, files, sentences = int(sys.argv[3]), sys.argv[4:], Sentences(said)
    noticed, seen, strange, met, taken = {}, {}, set(), set(), {}
    for plan_file, shop_file, marks_file in zip(files[::3], files[1::3], files[2::3]):
        plan = json.load(open(plan_file, encoding="utf-8"))
        marks = [json.load(open(marks_file, encoding="utf-8"))]
        shop = {} if shop_file == "-" else figures_check.shop_of(shop_file)
        if figures_check.check(plan, shop, marks)[1]:
            print(f"{plan_file}: differs before it is spoilt")
            return 1
        found = []
        leaves({k: v for k, v in plan.items() if k not in ELSEWHERE}, [], "", found)
        in_marks = []
        leaves(marks[0], [], "", in_marks)
        found = [("plan", *f) for f in found] + [("marks", f"marks.{f[0]}", *f[1:]) for f in in_marks]
        rows_p = [o["positions"] for s in plan["setups"] for o in s["operations"]]
        spans = [p["from_datum"] + p["from_far_end"] for row in rows_p for p in row]
        spans = [round(s, 6) for s in spans]
        overall = max(set(spans), key=spans.count)
        by_key = {}
        for which, key, path, value in found:
            by_key.setdefault(key, []).append((which, path, value))
        strange |= set(by_key) - set(rows)
        met |= set(by_key) & set(rows)
        sentences.look(plan, most, lambda: faulty(plan, shop, marks))
        for key in sorted(set(by_key) & set(rows)):
            # One of the middle: the first is often a zero.
            which, path, value = by_key[key][len(by_key[key]) // 2]
            if rows[key]["again"] == "yes" and taken.get(key, 0) < most and value:
                taken[key] = taken.get(key, 0) + 1
                for kind, spoil in kinds(plan["units"], overall).items():
                    bad = spoil(value)
                    if bad is None or bad == value:
                        continue
                    tree = plan if which == "plan" else marks[0]
                    put(tree, path, bad)
                    wrong = faulty(plan, shop, marks)
                    put(tree, path, value)
                    a, b = noticed.setdefault(kind, [0, 0])
                    noticed[kind] = [a + wrong, b + 1]
                    x, y = seen.setdefault(key, {}).setdefault(kind, [0, 0])
                    seen[key][kind] = [x + wrong, y + 1]
    for kind, (a, b) in noticed.items():
        print(f"{kind}: {a} of {b} noticed, {100 * a / b:.1f} %")
    first = ("two digits change places", "doubled")
    silent = sorted(k for k, by in seen.items() if not any(by.get(kind, [0, 0])[0] for kind in first))
    coarse = sorted(k for k in FINE if k in seen and seen[k].get("one in the last place printed", [0])[0] == 0)
    weak = sorted(((sum(a for a, _ in by.values()) / sum(b for _, b in by.values()), k) for k, by in seen.items()))[:12]
    print("least noticed: " + "; ".join(f"{k} {100 * share:.0f} %" for share, k in weak))
    gone = sorted(k for k in rows if k not in met and not k.endswith("*"))
    for k in sorted(strange):
        print(f"not in the list: {k}")
    for k in silent:
        print(f"said to be worked again, and spoiling it goes unnoticed: {k}")
    for k in coarse:
        print(f"one in the last place of it goes unnoticed: {k}")
    for k in (k for k in FINE if k not in rows):
        coarse.append(k)
        print(f"said to be fine, and not in the list: {k}")
    for k in gone:
        print(f"in the list, and in no plan: {k}")
    in_words = sentences.told()
    for line in in_words:
        print(line)
    return 1 if strange or silent or gone or coarse or in_words else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError) as e:
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
