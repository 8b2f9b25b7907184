#!/usr/bin/env python3
"""Solve the ordering problem of a certificate again, without turnwright.

Usage: order_check.py [FILE ...]   (standard input when no file is named)
Reads a certificate, or a reply of `plan --format json` with one (or a list of such), and solves its problem by plain
dynamic programming over sets of operations done; of a reply also what the plan would cost without each of its holdings, and the
certificate of the fewest setups. Exit 1 when order, cost, bound or count is wrong, 2 when unreadable.
"""
import json
import sys
from fractions import Fraction


def exact(text):
    """A number as a whole number of thousandths where it is one: quick and exact."""
    n = Fraction(text) * 1000
    return n.numerator if n.denominator == 1 else n


def look(cost, key):
    return cost if not isinstance(cost, dict) else cost[key] if key in cost else cost["*"]


def mask(numbers):
    return sum(1 << i for i in set(numbers))


class Rules:  # the problem with operations as numbers, and sets of them as bit masks
    def __init__(self, c):
        self.c, self.ops = c, c["ops"]
        self.number = {op["id"]: i for i, op in enumerate(self.ops)}
        pairs = {k: [(self.number[a], self.number[b]) for a, b in c[k]] for k in ("precedences", "adjacent", "same_setup")}
        self.before = [mask(a for a, b in pairs["precedences"] if b == i) for i in range(len(self.ops))]
        self.next = dict(pairs["adjacent"])
        self.previous = {b: a for a, b in pairs["adjacent"]}
        self.pairs = [(1 << a, 1 << b) for a, b in pairs["same_setup"]]
        self.needs = {s: mask(self.number[x] for x in listed) for s, listed in c["setup_needs"].items()}
        self.ends = {s: mask(self.number[x] for x in listed) for s, listed in c["setup_ends"].items()}
        self.gates = {}  # (operation, setup) to what is done before it there
        for s, listed in c.get("setup_gates", {}).items():
            for a, b in listed:
                self.gates[self.number[a], s] = self.gates.get((self.number[a], s), 0) | 1 << self.number[b]
        self.own = [{s: look(op["cost"], s) for s in op["setups"]} for op in self.ops]

    def steps(self, done, last, setup):
        """Every (operation, setup, cost) that may come next."""
        held = any(bool(done & a) != bool(done & b) for a, b in self.pairs)
        wanted = self.next.get(last)
        for i in range(len(self.ops)) if wanted is None else [wanted]:
            if done >> i & 1 or self.before[i] & ~done or (i in self.previous and self.previous[i] != last):
                continue
            for to, own in self.own[i].items():
                if not (setup != to and (held or i in self.previous) or (self.needs.get(to, 0) | self.gates.get((i, to), 0)) & ~done or self.ends.get(to, 0) & done):
                    yield i, to, own + self.way_in(last, setup, i, to)

    def way_in(self, last, setup, i, to):
        if last is None:
            return look(self.c["setup_first"], to) + self.c["tool_first"]
        taken_out = setup != to and not self.c.get("tool_kept_over_setup", True)
        swap = self.c["tool_change"] if taken_out or self.ops[last]["tool"] != self.ops[i]["tool"] else 0
        return swap + (0 if setup == to else look(self.c["setup_change"], f"{setup}>{to}"))


def solve(rules):
    """Least cost and the number of orders that have it. A layer maps (done, last, setup) to (cost, count); of the last
    operation only the tool matters, so that any with the same tool stands for it, unless another must follow at once."""
    stands_for, seen = [], {}
    for i, op in enumerate(rules.ops):
        stands_for.append(i if i in rules.next or i in rules.previous else seen.setdefault(op["tool"], i))
    layer = {(0, None, None): (0, 1)}
    for _ in rules.ops:
        following = {}
        for (done, last, setup), (cost, count) in layer.items():
            for i, to, more in rules.steps(done, last, setup):
                key = (done | 1 << i, stands_for[i], to)
                best, ways = following.get(key, (cost + more, 0))
                if cost + more <= best:
                    following[key] = (cost + more, count + (ways if cost + more == best else 0))
        layer = following
    best = min((cost for cost, _ in layer.values()), default=None)
    return best, sum(count for cost, count in layer.values() if cost == best)


def replay(rules, order):
    done, last, setup, total = 0, None, None, 0
    for name, to in order:
        i = rules.number.get(name)
        more = next((cost for j, s, cost in rules.steps(done, last, setup) if (j, s) == (i, to)), None)
        if more is None:
            return None
        done, last, setup, total = done | 1 << i, i, to, total + more
    return total if done == (1 << len(rules.ops)) - 1 else None


def faults(c):
    rules = Rules(c)
    best, count = solve(rules)
    if replay(rules, c["order"]) != c["cost"]:
        yield "the order does not keep the rules at the stated cost"
    if best is None or c["lower_bound"] > best or c["cost"] < best or (c.get("proven_optimal", True) and c["cost"] != best):
        yield f"cost {c['cost']} or bound {c['lower_bound']} is wrong: the best is {best} (thousandths)"
    stated = c.get("optimal_orders")
    if stated is not None and (int(stated) if isinstance(stated, str) else stated / 1000) != count:
        yield f"{stated if isinstance(stated, str) else stated // 1000} best orders stated, {count} counted"


def without(c, holding):
    """The same problem with one setup fewer to go to."""
    ops = [dict(op, setups=[s for s in op["setups"] if s != holding]) for op in c["ops"]]
    return dict(c, ops=ops)


def other_faults(reply):
    """Of what a reply tells beside its plan: each price without a holding, and the fewest setups."""
    c, beside = reply["certificate"], reply.get("certificates_beside", [])
    for way in beside:
        yield from (f"another way round: {fault}" for fault in faults(way))
        if way["cost"] < c["cost"]:
            yield "another way round is cheaper than the plan"
    for told in reply.get("without_a_holding", []):
        # The plan's own way round and the others that were searched: the cheapest counts.
        costs = [solve(Rules(without(way, told["without"])))[0] for way in [c, *beside]]
        best = min((cost for cost in costs if cost is not None), default=None)
        if best is None or told["lower_bound"] > best or told["cost"] < best or (told["cost"] == told["lower_bound"] and told["cost"] != best):
            yield f"without {told['without']}: {told['cost']} told, the best is {best} (thousandths)"
        if told["cost"] < c["cost"] or told["without"] in told["setups"]:
            yield f"without {told['without']}: cheaper than the plan, or not without it"
        yield from otherwise(c, [c, *beside], told)
    if fewest := reply.get("fewest_setups_certificate"):
        yield from (f"fewest setups: {fault}" for fault in faults(fewest))


def otherwise(c, ways, told):
    """What a plan without a holding is told to do instead: each operation of that holding elsewhere, in a setup of its own that is taken up."""
    may = {}
    for way in ways:  # in one of the ways round that were searched
        for op in way["ops"]:
            may.setdefault(op["id"], []).extend(op["setups"])
    moved = {o: i["setup"] for i in told.get("instead", []) for o in i["operations"]}
    for name, setup in c["order"]:
        to = moved.get(name, setup)
        if to == told["without"] or to not in may[name] or to not in told["setups"] or moved.get(name) == setup:
            yield f"without {told['without']}: {name} is told to be done in {to}"


def main(files):
    wrong = 0
    for name in files or ["-"]:
        try:
            with sys.stdin if name == "-" else open(name, encoding="utf-8") as file:
                reply = json.load(file, parse_float=exact, parse_int=exact)
            replies = reply if isinstance(reply, list) else [reply]
        except (OSError, ValueError, AttributeError) as error:
            print(f"{name}: {error}", file=sys.stderr)
            return 2
        for one in replies:
            c = one.get("certificate", one)
            found = list(faults(c)) + (list(other_faults(one)) if c is not one else [])
            others = len(one.get("without_a_holding", [])) + len(one.get("certificates_beside", [])) + ("fewest_setups_certificate" in one) if c is not one else 0
            wrong += bool(found)
            print(f"{name}: {len(c['ops'])} operations: {'; '.join(found) or 'agrees'}" + (f", and {others} others with it" if others else ""))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
