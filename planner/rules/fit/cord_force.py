"""Cord force: what the hand must pull, against what it can."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.job import Cord, Limits, Use


def cord_pull_n(grip_n: float, lever: float, bends_deg: float, friction: float) -> float:
    """Return the pull at the cord's end: grip x lever x e^(mu theta), the capstan equation (Euler, Eytelwein).

    >>> round(cord_pull_n(1.0, 1.0, 180.0, 0.2), 4)
    1.8745
    """
    return grip_n * lever * math.exp(friction * math.radians(bends_deg))


def cord_findings(cords: Sequence[Cord], use: Use, limits: Limits) -> list[Finding]:
    """Judge the pull on every cord that the mechanism does not; a return elastic adds its force to the others."""
    elastics = [cord for cord in cords if cord.kind == "elastic"]
    against = None if any(cord.force_n is None for cord in elastics) else sum(cord.force_n or 0.0 for cord in elastics)
    braided = [cord_force(cord, use, limits, against) for cord in cords if cord.kind != "elastic" and not cord.pulls]
    return [*braided, *(_elastic(cord, use, limits) for cord in elastics)]


def _elastic(cord: Cord, use: Use, limits: Limits) -> Finding:
    """Say what a return elastic does: it bears none of the load, and the hand pulls against it."""
    known = cord.force_n is not None
    decides = not known and None not in (use.wanted_grip_n, use.pull_n)
    force = f"{cord.force_n:g} N" if known else "a force that is not stated"
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.GO,
        measured=cord.force_n,
        unit="N",
        why=f"{cord.name} carries no load: it opens the grip again, and adds {force} to what the hand pulls",
        source=limits.cord_share.source,
        question=f"What does a spring balance read on {cord.name} at its full stretch, in N?" if decides else "",
    )


def cord_force(cord: Cord, use: Use, limits: Limits, against_n: float | None = 0.0) -> Finding:
    """Judge a cord's pull: a hold over the share of the measured pull, a note without one.

    ``against_n`` is the force of the return elastics, None where one of them is not known.
    """
    friction = limits.cord_friction.value if cord.friction is None else cord.friction
    source = f"{limits.cord_share.source}; friction: {limits.cord_friction.source if cord.friction is None else 'job'}"
    grip = use.wanted_grip_n
    load = None if grip is None else grip + (against_n or 0.0)
    can = load is not None and cord.lever is not None
    pull = cord_pull_n(load or 0.0, cord.lever or 0.0, cord.bends_deg, friction) if can else None
    open_end = " and more, by a return elastic whose force is not stated" if against_n is None else ""
    if pull is None and None not in (load, use.pull_n):
        return _unknown(cord, source)
    if pull is None or use.pull_n is None:
        return _not_compared(cord, use, pull, open_end, source)
    most = limits.cord_share.value * use.pull_n
    has, allowed = told_apart(pull, most, 0)
    with_it = f" with {against_n:g} N of elastic" if against_n else ""
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.GO if pull <= most else Verdict.HOLD,
        measured=pull,
        limit=most,
        unit="N",
        why=f"{grip:g} N at the jaw{with_it} takes a pull of {has} N at the hand over {cord.bends_deg:g} degrees of "
        f"bends{open_end}; {100 * limits.cord_share.value:g} % of the measured {use.pull_n:g} N is {allowed} N",
        remedy="" if pull <= most else "fewer bends, a longer lever or a lighter grip; ask a clinician",
        source=source,
        caution=f"{most - pull:.0f} N at the hand are left for the return elastic."
        if open_end and pull <= most
        else "",
    )


def _unknown(cord: Cord, source: str) -> Finding:
    """Hold a cord whose pull can be neither computed nor told from what is stated."""
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.HOLD,
        unit="N",
        why=f"the pull on {cord.name} is not known: its lever is not stated, and no path tells it",
        remedy="state path, drives and grip_at_mm of the cord, or its lever (cord force over grip force)",
        source=source,
        question=f"How many newtons must {cord.name} pull for 1 N at the tip?",
    )


def _not_compared(cord: Cord, use: Use, pull: float | None, open_end: str, source: str) -> Finding:
    """Note a pull that nothing measured is there to compare with."""
    missing = "load_n" if use.wanted_grip_n is None else "pull_n, the largest pull measured"
    known = "" if pull is None else f" {pull:.0f} N{open_end}"
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.GO,
        measured=pull,
        unit="N",
        why=f"the pull on {cord.name}{known} is not compared: [use] gives no {missing}",
        source=source,
        caution="Cord forces of body-powered devices are large; a clinician decides what a person may pull.",
    )
