"""Sizes on instruments in the other unit, worked again from the drawn ones. Used by figures_check.py.

1 in = 25.4 mm exactly (international yard and pound agreement, 1959). Limits on an instrument lie within the drawn ones, and no more than one step
of its last digit within; a size is the drawn one to the nearest step, or the limit it would go beyond.
"""
from fractions import Fraction as F


def blocks(plan, marks_replies):
    """Where, the block, the size it stands for, its limits, what the printed limits were rounded by."""
    for s in plan["setups"]:
        for o in s["operations"]:
            where = f"{o['number']} {o['verb']}"
            yield where, o.get("on_instrument"), o["to_diameter"], o["limits"], 0
            for i, c in enumerate(o.get("cuts") or [], 1):
                yield f"{where}, cut {i}", c.get("on_instrument"), c["should_read"], None, 0
            if o.get("center"):
                yield f"{where}, mouth", o["center"].get("mouth_on_instrument"), o["center"]["mouth_diameter"], None, 0
            for c in (o.get("taper") or {}).get("checks", []):
                yield f"{where}, {c['what']} of the taper", c.get("on_instrument"), c["diameter"], None, 0
            t, k, f = o.get("thread"), o.get("keyseat"), o.get("flats")
            if t:
                yield f"{where}, blank", t.get("blank_on_instrument"), None, t["blank"], 0
                yield f"{where}, over wires", t.get("over_on_instrument"), t["wire"], t["over_wires"], 6e-4 if plan["units"] == "mm" else 6e-5
            if k:
                yield f"{where}, across the bottom", k.get("across_on_instrument"), None, k["across_bottom_limits"], 0
            if f:
                yield f"{where}, across flats", f.get("across_on_instrument"), None, f["across_limits"], 0
                yield f"{where}, after the first flat", f.get("after_first_on_instrument"), f["after_first"], None, 0
    for r in plan.get("inspection", []):
        yield f"inspection {r['letters']}", r.get("on_instrument"), None, r["limits"], 0
    for marks in marks_replies:
        for n in marks["lists"]:
            for m in n["marks"]:
                yield f"mark {m['label']}", m.get("on_instrument"), m["height_gauge"], None, 0


def step_of(values, units):
    """A thousandth of an inch, a hundredth of a millimetre; a tenth of that where a value needs it, or a hundredth."""
    coarse = F(1, 1000) if units == "in" else F(1, 100)
    for step in (coarse, coarse / 10, coarse / 100):
        if all((v / step).denominator == 1 for v in values):
            return step
    return None


def check(plan, marks_replies, shop, same, bad):
    to = F("25.4") if plan["units"] == "in" else 1 / F("25.4")
    other = "mm" if plan["units"] == "in" else "in"
    for where, on, size, limits, slack in blocks(plan, marks_replies):
        if on is None:
            # A shop in the other unit whose instruments name none reads everything in it.
            if shop.get("instruments") and shop.get("units") == other and (limits or size) and where.split()[0] in ("mark",):
                bad(f"{where}: {size} is not told on the shop's instrument")
            continue
        if on["units"] != other:
            bad(f"{where}: told in {on['units']}, which the part is in")
        told = {k: F(str(on[k])) for k in ("size", "min", "max") if on[k] is not None}
        step = step_of(told.values(), other)
        if step is None:
            bad(f"{where}: {on} has more digits than an instrument")
            continue
        slack = F(str(slack)) * to + F(1, 10**7)
        if limits and "min" in told:
            low, high = F(str(limits["min"])) * to, F(str(limits["max"])) * to
            for what, gap in (("least", told["min"] - low), ("largest", high - told["max"])):
                same(where, f"{what} on the instrument", float(gap), float(step / 2), float(step / 2 + slack))
            if (told["max"] - told["min"]) * 2 < high - low - 2 * slack:
                bad(f"{where}: rounding takes more than half of the limits {on}")
        if size is not None and "size" in told:
            wanted = F(str(size)) * to
            if limits and "min" in told and slack < F(1, 10**5):
                wanted = min(max(wanted, told["min"]), told["max"])
            same(where, "size on the instrument", float(told["size"]), float(wanted), float(step / 2 + F(1, 10**7)))
