"""Spool grams: what is left for every colour, counted once, and whether that is enough."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.job import Job, Material


def grams_left(needs_g: Mapping[str, float], spools_g: Iterable[tuple[str, float]]) -> dict[str, float]:
    """Return the grams that are left for each colour's need, of spools given as colours and grams.

    A colour takes its own spools first; what it lacks it takes from spools of any colour, in the order of the needs.
    What may have any colour takes what then is left of all. Where each need is at most its own of these grams, all are
    met together, and where one is not, no other dealing meets them all.

    >>> grams_left({"green": 100.0, "black": 100.0}, [("any", 150.0)])
    {'green': 150.0, 'black': 50.0}
    """
    own: dict[str, float] = {}
    for colour, grams in spools_g:
        own[colour] = own.get(colour, 0.0) + grams
    pool, total, found = own.get("any", 0.0), sum(own.values()), dict[str, float]()
    for colour, need in needs_g.items():
        if colour != "any":
            found[colour] = own.get(colour, 0.0) + pool
            pool -= min(pool, max(0.0, need - own.get(colour, 0.0)))
            total -= min(need, found[colour])
    return {colour: total if colour == "any" else found[colour] for colour in needs_g}


def spool_findings(job: Job, material: Material, needed_g: Mapping[str, float]) -> tuple[Finding, ...]:
    """Compare what each colour needs, with its reserve, to what is left on the spools: ``spool.short``."""
    reserve, found = job.limits.spool_reserve, []
    mine = [spool for spool in job.spools if spool.material == material.name]
    needs = {colour: grams * reserve.value for colour, grams in needed_g.items()}
    left_by = grams_left(needs, [(spool.colour, spool.left_g or 0.0) for spool in mine])
    for colour, need in needs.items():
        able = [spool for spool in mine if colour == "any" or spool.colour in (colour, "any")]
        if not job.spools or any(spool.left_g is None for spool in able):
            continue
        left, short = left_by[colour], need > left_by[colour]
        beside = "" if left == sum(spool.left_g or 0.0 for spool in able) else " after what other colours need"
        want, has = told_apart(need, left, 0)
        why = f"{needed_g[colour]:.0f} g of {material.name}, {colour}, {want} g with reserve; {has} g are left"
        found.append(
            Finding(
                rule="spool.short",
                part="",
                feature=f"{material.name} {colour}",
                verdict=Verdict.HOLD if short else Verdict.GO,
                measured=need,
                limit=left,
                unit="g",
                why=why + beside,
                remedy=f"get {math.ceil(need - left):d} g more, or choose another colour" if short else "",
                source=reserve.source,
                question=f"Is there another spool of {material.name}, colour {colour}?" if short else "",
            )
        )
    return tuple(found)
