"""Where the work lies on the mill: the second V-block, worked again from the description and the cuts of its setup. Used by figures_check.py.

A V-block lies under a plain section, 1/4 in or 6 mm clear of what is cut, 3/8 in or 10 mm of it at least (common practice, no source); the two blocks lie apart, on the
diameter that stands there by then.
"""
from part_written import Part


def check(plan, bar, same, bad):
    try:
        part = Part(open(plan["file"], encoding="utf-8").read())
    except (OSError, KeyError, StopIteration):
        return
    pick = lambda inches, millimetres: inches if part.inch else millimetres
    done = {}
    for setup in plan["setups"]:
        also, where = setup["also"], f"setup {setup['number']}"
        if also:
            cuts = [sorted(o["span"].values()) for o in setup["operations"] if o["span"] and not o["inside"]]
            free = [(f.start, f.end) for f in part.sections if f.kind == "turn" and f.letter == also["letter"]]
            for low, high in cuts:
                room = pick(0.25, 6.0)
                free = [(a, b) for p, q in free for a, b in ((p, min(q, low - room)), (max(p, high + room), q)) if b - a >= pick(0.375, 10.0) - 1e-9]
            near = min(free, key=lambda s: abs(s[0] - also["from"]) + abs(s[1] - also["to"]), default=None)
            if near is None:
                bad(f"{where}: a second V-block on {also['letter']}, of which nothing is free")
                continue
            fine = 2e-6 if part.inch else 2e-5
            same(where, "second V-block from", also["from"], near[0], fine)
            same(where, "second V-block to", also["to"], near[1], fine)
            same(where, "diameter on it", also["diameter"], done.get(also["letter"], bar), fine)
            if setup["grip"] and also["from"] < setup["grip"]["to"] and setup["grip"]["from"] < also["to"]:
                bad(f"{where}: both V-blocks in one place")
        for o in setup["operations"]:
            if o["to_diameter"] and o["feature"] and not o["inside"] and o["verb"] in ("rough", "finish", "turn", "polish"):
                done[o["feature"]] = o["to_diameter"]
