#!/usr/bin/env python3
"""Prove the answer of a certificate by constraint programming (Google OR-Tools, CP-SAT), without turnwright and without the
dynamic programme of order_check.py: another method, another solver.

Usage: ortools_check.py [--most N] [FILE ...]   (standard input when no file is named)
Reads what order_check.py reads. Certificates of more than N operations (23) are left out, and said to be. The model is a tour
over pairs of operation and setup: one pair of each operation is visited, each with its place in the order and the number of setup
changes before it. It is asked for the cheapest tour at all; the stated order only tells the solver where to begin.
Exit 1 when the stated cost is not the least or a bound is above it, 2 when unreadable or OR-Tools is missing.
"""
import json
import sys
from fractions import Fraction

try:
    from ortools.sat.python import cp_model
except ImportError:
    print("OR-Tools is missing: pip install ortools", file=sys.stderr)
    sys.exit(2)

SECONDS = 120


def thousandths(text):
    n = Fraction(text) * 1000
    return n.numerator if n.denominator == 1 else n


def look(cost, key):
    return cost if not isinstance(cost, dict) else cost[key] if key in cost else cost["*"]


def least(c):
    """The least cost of any order, in thousandths, and whether that is proved; None when there is no order."""
    model = cp_model.CpModel()
    ops = c["ops"]
    number = {op["id"]: i for i, op in enumerate(ops)}
    places = [(i, s) for i, op in enumerate(ops) for s in op["setups"]]
    used = {place: model.new_bool_var(f"{place}") for place in places}
    for i, op in enumerate(ops):
        model.add_exactly_one(used[i, s] for s in op["setups"])
    at = [model.new_int_var(0, len(ops) - 1, f"at{i}") for i in range(len(ops))]
    mounted = [model.new_int_var(0, len(ops) - 1, f"mounted{i}") for i in range(len(ops))]
    model.add_all_different(at)
    cost = [(used[i, s], look(ops[i]["cost"], s)) for i, s in places]

    before = {(number[a], number[b]) for a, b in c["precedences"]}
    following = {number[a]: number[b] for a, b in c["adjacent"]}
    leading = {b: a for a, b in following.items()}
    for a, b in before:
        model.add(at[a] < at[b])
        model.add(mounted[a] <= mounted[b])
    for a, b in c["same_setup"]:
        model.add(mounted[number[a]] == mounted[number[b]])
        for s in set(ops[number[a]]["setups"]) | set(ops[number[b]]["setups"]):
            one, other = used.get((number[a], s)), used.get((number[b], s))
            if one is None or other is None:
                model.add((other if one is None else one) == 0)
            else:
                model.add(one == other)
    for i, s in places:
        for x in (number[x] for x in c["setup_needs"].get(s, [])):
            model.add(at[x] < at[i]).only_enforce_if(used[i, s])
        for x in (number[x] for x in c["setup_ends"].get(s, [])):
            if x != i:
                model.add(at[i] < at[x]).only_enforce_if(used[i, s])
    for s, listed in c.get("setup_gates", {}).items():
        for i, x in ((number[a], number[b]) for a, b in listed):
            if (i, s) in used:
                model.add(at[x] < at[i]).only_enforce_if(used[i, s])

    arcs = []
    node = {place: n + 1 for n, place in enumerate(places)}
    kept = c.get("tool_kept_over_setup", True)
    first, last = {}, {}
    for place in places:
        i, s = place
        first[place], last[place] = model.new_bool_var(""), model.new_bool_var("")
        arcs += [(0, node[place], first[place]), (node[place], 0, last[place]), (node[place], node[place], ~used[place])]
        model.add(at[i] == 0).only_enforce_if(first[place])
        model.add(mounted[i] == 0).only_enforce_if(first[place])
        cost.append((first[place], look(c["setup_first"], s) + c["tool_first"]))
        for other in places:
            j, t = other
            if i == j or (j, i) in before:
                continue
            moved = s != t
            if (i in following and (following[i] != j or moved)) or (j in leading and (leading[j] != i or moved)):
                continue
            arc = model.new_bool_var("")
            arcs.append((node[place], node[other], arc))
            model.add(at[j] == at[i] + 1).only_enforce_if(arc)
            model.add(mounted[j] == mounted[i] + int(moved)).only_enforce_if(arc)
            swap = c["tool_change"] if ops[i]["tool"] != ops[j]["tool"] or (moved and not kept) else 0
            cost.append((arc, swap + (look(c["setup_change"], f"{s}>{t}") if moved else 0)))
    model.add_circuit(arcs)
    model.minimize(sum(more * variable for variable, more in cost if more))

    order = [(number[name], setup) for name, setup in c.get("order", [])]
    for place, variable in used.items():
        model.add_hint(variable, place in order)
    for n, (i, _) in enumerate(order):
        model.add_hint(at[i], n)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = SECONDS
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None, True
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, False
    return round(solver.objective_value), status == cp_model.OPTIMAL


def fault(c):
    best, proved = least(c)
    if best is None:
        return "no order was found" if not proved else "there is no order"
    if best < c["cost"]:
        return f"an order costs {best}, not {c['cost']} (thousandths)"
    if not proved:
        return f"not proved within {SECONDS} s"
    if best != c["cost"] or c["lower_bound"] > best:
        return f"cost {c['cost']} or bound {c['lower_bound']} is wrong: the least is {best} (thousandths)"
    return None


def main(args):
    most = 23
    if args[:1] == ["--most"]:
        most, args = int(args[1]), args[2:]
    wrong = 0
    for name in args or ["-"]:
        try:
            with sys.stdin if name == "-" else open(name, encoding="utf-8") as file:
                reply = json.load(file, parse_float=thousandths, parse_int=thousandths)
            certificates = [one.get("certificate", one) for one in (reply if isinstance(reply, list) else [reply])]
        except (OSError, ValueError, AttributeError) as error:
            print(f"{name}: {error}", file=sys.stderr)
            return 2
        for c in certificates:
            if len(c["ops"]) > most:
                print(f"{name}: {len(c['ops'])} operations: left out, more than {most}")
                continue
            found = fault(c)
            wrong += found is not None
            print(f"{name}: {len(c['ops'])} operations: {found or 'proved'}", flush=True)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
