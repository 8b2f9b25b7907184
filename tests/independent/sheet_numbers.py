#!/usr/bin/env python3
"""Look whether every number that a setup sheet prints stands in the plan, at its printed digits.

Usage: sheet_numbers.py PLAN.json MARKS.json SHEET.md DESCRIPTION.yaml SHOP.yaml|- [the same five again ...]
The sheet is one of `sheet --format md`, the plan of `plan --format json`, the marks of `marks`. A number may stand in the plan (its certificates are not asked) or the marks, in one of their sentences, in the
description or the shop file, be what is left of a dial's turn, the same in the shop's unit, or be one of CONSTANTS. Then the last digit of each number of four or more
digits is spoilt: four of five must stand nowhere. Exit 1 with what stands nowhere, 2 when unreadable.
"""
import json
import re
import sys

NUMBER = re.compile(r"(?<![\w.])(?:\d+\.\d+|\.\d+|\d+)(?!\w*\d)")
# Numbers of setups and of what stands on every sheet; .10 on a dial takes .20 off the diameter.
CONSTANTS = {"0", "1", "2", "3", "4", "5", "6", "8", "10", "0.10", "0.20", ".100", ".200"}
# Limits of inside pitch diameters, which the plan does not hold: 1 1/4-7 UNC-2B (ASME B1.1), M24x1.5-6H (ISO 965-2), both from memory.
CONSTANTS |= {"1.1572", "1.1668", "23.026", "23.226"}
# An example of the flip's correction: so much over the overall.
EXAMPLE = re.compile(r"\(([\d.]+) measured gives −([\d.]*\d)")
# How far a drill goes between two clearings of chips: told as "draw back past", a share of its diameter before the bottom (common practice).
CHIPS = re.compile(r"draw back\*{0,2} past ([\d.]+) deep")
# Height of a 60° thread, .6495 P: three quarters of H = .8660 P (plain geometry), with the pitch in the designation.
HEIGHT = re.compile(r"\.6495 P = ([\d.]*\d) a side, for \S*?(?:M[\d.]+x([\d.]+)|-(\d+) )")


def leaves(value, numbers, texts):
    if isinstance(value, dict):
        for v in value.values():
            leaves(v, numbers, texts)
    elif isinstance(value, list):
        for v in value:
            leaves(v, numbers, texts)
    elif isinstance(value, str):
        texts.append(value)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        numbers.append(abs(value))


def rests(value, out):
    """Turns and divisions of a dial, wherever they stand."""
    if isinstance(value, dict):
        if isinstance(value.get("divisions"), (int, float)):
            out.append(value["divisions"])
        for v in value.values():
            rests(v, out)
    elif isinstance(value, list):
        for v in value:
            rests(v, out)


def spans(value):
    """Every stretch from one place to another."""
    if isinstance(value, dict):
        if isinstance(value.get("from"), (int, float)) and isinstance(value.get("to"), (int, float)):
            yield value["from"], value["to"]
        for v in value.values():
            yield from spans(v)
    elif isinstance(value, list):
        for v in value:
            yield from spans(v)


class Known:
    def __init__(self, plan, marks, description, shop):
        self.numbers, texts, divisions = [], [description, shop], []
        told = {k: v for k, v in plan.items() if k not in ("certificate", "certificates_beside", "fewest_setups_certificate")}
        leaves([told, marks], self.numbers, texts)
        # What the plan would cost more without a holding.
        self.numbers += [other["cost"] - plan["cost"] for other in plan["without_a_holding"]]
        rests(told, divisions)
        steps = {float(s) for s in re.findall(r"division:\s*([\d.]+)", shop)}
        self.numbers += [d * s for d in divisions for s in steps]
        # How much of a thing there is: cuts of the chart, setups, operations.
        self.numbers += [len(v) for v in lists(told)]
        # The middle of a stretch; a fraction of an inch as it is written.
        self.numbers += [abs(a + b) / 2 for a, b in spans(told)]
        self.numbers += [int(a) / int(b) for a, b in re.findall(r"(\d+)/(\d+)", description) if int(b)]
        self.numbers += [float(n) for n in re.findall(r"(?<![\w.])(?:\d+\.\d+|\.\d+)", description)]
        own = re.search(r"^units:\s*(\w+)", shop, re.M)
        if own and own.group(1) != plan["units"]:
            # Part and lathe count in different units: everything in both; what the shop file has, too.
            self.numbers += [float(n) for n in re.findall(r"(?<![\w.])\d*\.?\d+", shop)]
            self.numbers += [n / 25.4 for n in self.numbers] + [n * 25.4 for n in self.numbers]
            # What is left of a whole turn of a carriage dial of one inch.
            self.numbers += [n % 1.0 for n in self.numbers]
        self.words = {w for t in texts for w in NUMBER.findall(t.replace(",", "."))}

    def has(self, text):
        if text in self.words or text in CONSTANTS:
            return True
        places = len(text.split(".")[1]) if "." in text else 0
        # Limits are rounded inward: up to a whole digit.
        x, near = float(text), (1.0 if places > 2 else 0.5) * 10.0 ** -places + 1e-9
        return any(abs(n - x) <= near for n in self.numbers)


def lists(value):
    if isinstance(value, dict):
        for v in value.values():
            yield from lists(v)
    elif isinstance(value, list):
        yield value
        for v in value:
            yield from lists(v)


def off_by_one(text):
    """The number with its last digit one more."""
    return text[:-1] + str((int(text[-1]) + 3) % 10)


def main():
    missing = asked = noticed = spoilt = 0
    files = sys.argv[1:]
    for plan_file, marks_file, sheet_file, part_file, shop_file in zip(*(files[i::5] for i in range(5))):
        read = lambda path: "" if path == "-" else open(path, encoding="utf-8").read()
        known = Known(json.loads(read(plan_file)), json.loads(read(marks_file)), read(part_file), read(shop_file))
        for line in read(sheet_file).splitlines():
            for m in EXAMPLE.finditer(line):
                over = float(m.group(1)) - float(m.group(2))
                asked += 1
                if not any(abs(n - over) < 1e-3 for n in known.numbers):
                    missing += 1
                    print(f"{sheet_file}: {m.group(0)}: no such overall")
            for m in HEIGHT.finditer(line):
                pitch = float(m.group(2)) if m.group(2) else 1 / float(m.group(3))
                asked += 1
                if abs(float(m.group(1)) - 0.649519 * pitch) > 10.0 ** -len(m.group(1).split(".")[1]):
                    missing += 1
                    print(f"{sheet_file}: {m.group(0)}: no such height")
            line = HEIGHT.sub("", CHIPS.sub("", EXAMPLE.sub("", line)))
            for m in NUMBER.finditer(line):
                asked += 1
                if not known.has(m.group(0)):
                    missing += 1
                    print(f"{sheet_file}: {m.group(0)} stands nowhere: …{line[max(0, m.start() - 40):m.end() + 30]}…")
                if len(m.group(0).replace(".", "")) >= 4:
                    spoilt += 1
                    noticed += not known.has(off_by_one(m.group(0)))
    share = 100 * noticed / max(spoilt, 1)
    print(f"{asked} numbers of {len(files) // 5} sheets, {missing} stand nowhere; of {spoilt} spoilt ones {share:.0f} % noticed")
    return 1 if missing or not asked or share < 80 else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError) as e:
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
