#!/usr/bin/env python3
"""Spoil plans in many ways, and see which rule of rules_check.py notices.

Usage: rules_spoil.py PLAN.json ...   (replies of `plan --format json`; a plan that is told to break a rule is left out)
Two operations change places, one goes into another setup, is left out or done twice, jaws are moved over a cut or told bare, a diameter is off, a center hole is bored away.
Every rule must notice at least one spoiling that no other rule notices; an operation left out, or cut under the jaws, must always be noticed.
Exit 1 with what went unnoticed, 2 when unreadable.
"""
import json
import random
import sys

from part_written import Part
from rules_check import BENCH, RULES, faults

SWAPS = 100


def places(plan):
    return [(i, j) for i, s in enumerate(plan["setups"]) for j in range(len(s["operations"]))]


def copied(plan):
    """Deep enough to be spoilt: setups and operations, not what lies within them."""
    return dict(plan, setups=[dict(s, operations=[dict(o) for o in s["operations"]]) for s in plan["setups"]])


def numbered(plan):
    """As a plan would be told: no empty setup, setups and operations counted through."""
    plan["setups"] = [s for s in plan["setups"] if s["operations"]]
    n = 0
    for i, s in enumerate(plan["setups"]):
        s["number"] = i + 1
        for o in s["operations"]:
            n += 10
            o["number"] = n
    return plan


def swapped(plan, a, b):
    p = copied(plan)
    one, other = p["setups"][a[0]]["operations"], p["setups"][b[0]]["operations"]
    one[a[1]], other[b[1]] = other[b[1]], one[a[1]]
    return numbered(p)


def moved(plan, a, to, at):
    p = copied(plan)
    op = p["setups"][a[0]]["operations"].pop(a[1])
    p["setups"][to]["operations"].insert(at, op)
    return numbered(p)


def setups_swapped(plan, i, j):
    p = copied(plan)
    p["setups"][i], p["setups"][j] = p["setups"][j], p["setups"][i]
    return numbered(p)


def split(plan, i, k, between=None):
    """A setup taken down after k operations and put up again; another one taken in between."""
    p = copied(plan)
    s = p["setups"][i]
    parts = [dict(s, operations=s["operations"][:k]), dict(s, operations=s["operations"][k:])]
    if between is not None:
        parts.insert(1, p["setups"][between])
        p["setups"][between] = dict(p["setups"][between], operations=[])
    p["setups"][i:i + 1] = parts
    return numbered(p)


def spoilings(plan, dice):
    """What is done to a plan, and what it is then; a plain word for those that must be noticed."""
    all_ = places(plan)
    pairs = [(a, b) for n, a in enumerate(all_) for b in all_[n + 1:]]
    for a, b in dice.sample(pairs, min(SWAPS, len(pairs))):
        yield "swap", swapped(plan, a, b)
    for i in range(len(plan["setups"]) - 1):
        yield "setups swapped", setups_swapped(plan, i, i + 1)
    for i, s in enumerate(plan["setups"]):
        for k in range(1, len(s["operations"])):
            yield "setup taken down", split(plan, i, k)
            for j in range(i + 1, len(plan["setups"]) - 1):
                # As though the lathe might be left for a slot: that soft rule is off.
                bad = split(plan, i, k, j)
                yield "setup taken in early", dict(bad, given_way=[{"rule": "order-turn-keyseat"}])
    for a in all_:
        # To the front of its own setup, to its end, and into every other setup.
        yield "first", moved(plan, a, a[0], 0)
        yield "last", moved(plan, a, a[0], len(plan["setups"][a[0]]["operations"]) - 1)
        for to in range(len(plan["setups"])):
            if to != a[0]:
                yield "other setup", moved(plan, a, to, dice.randint(0, len(plan["setups"][to]["operations"])))
        p = copied(plan)
        gone = p["setups"][a[0]]["operations"].pop(a[1])
        # What another cut makes up for, or the drawing does not ask.
        roughing = gone["verb"] in ("rough", "polish", "fit test", "center", "drill", "bore")
        yield "left out, may go unnoticed" if roughing else "LEFT OUT", numbered(p)
        p = copied(plan)
        ops = p["setups"][a[0]]["operations"]
        ops.insert(a[1], dict(ops[a[1]]))
        yield "done twice", numbered(p)
        op = plan["setups"][a[0]]["operations"][a[1]]
        if op["to_diameter"]:
            p = copied(plan)
            p["setups"][a[0]]["operations"][a[1]]["to_diameter"] = op["to_diameter"] * 0.97
            yield "diameter", p
    for i, s in enumerate(plan["setups"]):
        cut = [o for o in s["operations"] if o["span"] and not o["inside"] and o["verb"] not in ("face", "part off")]
        if s["grip"] and s["works"] and cut:
            o = max(cut, key=lambda o: abs(o["span"]["to"] - o["span"]["from"]))
            lo, hi = sorted(o["span"].values())
            p = copied(plan)
            p["setups"][i] = dict(p["setups"][i], grip=dict(s["grip"], **{"from": lo, "to": hi}))
            yield "CUT UNDER THE JAWS", p
        if s["grip"]:
            for key, value in (("protect", False), ("diameter", s["grip"]["diameter"] * 1.03), ("roughed", not s["grip"].get("roughed"))):
                p = copied(plan)
                p["setups"][i] = dict(p["setups"][i], grip=dict(s["grip"], **{key: value}))
                yield f"grip {key}", p
        for kind in ("chuck", "between centers", "chuck and center"):
            if kind != s["holding"] and s["works"]:
                p = copied(plan)
                p["setups"][i] = dict(p["setups"][i], holding=kind, runs_true=None)
                yield f"holding {kind}", p


def main():
    alone, noticed, missed = {r: 0 for r in RULES}, {}, []
    for path in sys.argv[1:]:
        with open(path, encoding="utf-8") as file:
            reply = json.load(file)
        for plan in reply if isinstance(reply, list) else [reply]:
            with open(plan["file"], encoding="utf-8") as file:
                part = Part(file.read())
            if faults(plan, part):
                print(f"{plan['file']}: at fault before it is spoilt")
                return 1
            for what, bad in spoilings(plan, random.Random(plan["part"])):
                found = {rule for rule, _ in faults(bad, part)}
                if len(found) == 1:
                    alone[found.pop()] += 1
                    found = {"one"}
                a, b = noticed.setdefault(what, [0, 0])
                noticed[what] = [a + bool(found), b + 1]
                if what.isupper() and not found:
                    missed.append(f"{plan['file']}: {what} goes unnoticed")
    for what, (a, b) in sorted(noticed.items()):
        print(f"{what}: {a} of {b} noticed, {100 * a / b:.0f} %")
    print("noticed by it alone: " + ", ".join(f"{r} {n}" for r, n in alone.items()))
    idle = [r for r, n in alone.items() if not n]
    for line in missed + [f"no spoiling is noticed by {r} alone" for r in idle]:
        print(line)
    return 1 if missed or idle else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except (OSError, KeyError, ValueError, IndexError, StopIteration, TypeError) as e:
        print(f"unreadable: {e!r}", file=sys.stderr)
        sys.exit(2)
