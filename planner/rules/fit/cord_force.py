"""Cord force: what the hand must pull, against what it can."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.job import Cord, Limits, Use
from planner.rules.fit.elastics_at_tip import NO_ELASTIC, AtTheTip, at_the_tip

CURE = "fewer bends, a longer lever or a lighter grip; ask a clinician"


def cord_pull_n(grip_n: float, lever: float, bends_deg: float, friction: float) -> float:
    """Return the pull at the cord's end: grip x lever x e^(mu theta), the capstan equation (Euler, Eytelwein).

    >>> round(cord_pull_n(1.0, 1.0, 180.0, 0.2), 4)
    1.8745
    """
    return grip_n * lever * math.exp(friction * math.radians(bends_deg))


def cord_findings(
    cords: Sequence[Cord], use: Use, limits: Limits, copies: Mapping[str, int] | None = None
) -> list[Finding]:
    """Judge the pull on every cord that the mechanism does not; a return elastic adds its force to the others.

    ``copies`` says how often each part is printed: elastics that move different copies do not add up at one tip.
    """
    elastics = [cord for cord in cords if cord.kind == "elastic"]
    against = at_the_tip(elastics, copies or {})
    braided = [cord_force(cord, use, limits, against) for cord in cords if cord.kind != "elastic" and not cord.pulls]
    return [*braided, *(_elastic(cord, use, limits) for cord in elastics)]


def _elastic(cord: Cord, use: Use, limits: Limits) -> Finding:
    """Say what a return elastic does: it bears none of the load, and the hand pulls against it."""
    known = cord.force_n is not None
    decides = not known and None not in (use.wanted_grip_n, use.pull_n)
    force = f"{cord.force_n:g} N" if known else "a force that is not stated"
    each = f"{cord.count} of {cord.name} carry no load: they open the grip again, and each adds"
    one = f"{cord.name} carries no load: it opens the grip again, and adds"
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.GO,
        measured=cord.force_n,
        unit="N",
        why=f"{one if cord.count == 1 else each} {force} to what the hand pulls",
        source=limits.cord_share.source,
        question=f"What does a spring balance read on {cord.name} at its full stretch, in N?" if decides else "",
    )


def cord_force(cord: Cord, use: Use, limits: Limits, against: AtTheTip = NO_ELASTIC) -> Finding:
    """Judge a cord's pull: a hold over the share of the measured pull, a note without one.

    ``against`` is what the return elastics take at the tip. Where only the least of it passes, what nobody stated of
    them is asked.
    """
    friction = limits.cord_friction.value if cord.friction is None else cord.friction
    source = f"{limits.cord_share.source}; friction: {limits.cord_friction.source if cord.friction is None else 'job'}"
    grip = use.wanted_grip_n
    if cord.lever is None and None not in (grip, use.pull_n):
        return _unknown(cord, source)

    def pulled(elastic_n: float) -> float | None:
        if grip is None or cord.lever is None:
            return None
        return cord_pull_n(grip + elastic_n, cord.lever, cord.bends_deg, friction)

    pull = pulled(against.most_n)
    open_end = " and more, by a return elastic whose force is not stated" if against.open_ended else ""
    if pull is None or use.pull_n is None:
        return _not_compared(cord, use, pull, open_end, source)
    most = limits.cord_share.value * use.pull_n
    has, allowed = told_apart(pull, most, 0)
    fits = pull <= most
    asked = "" if fits or (pulled(against.least_n) or 0.0) > most else against.question
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.GO if fits else Verdict.HOLD,
        measured=pull,
        limit=most,
        unit="N",
        why=f"{grip:g} N at the jaw{against.said} takes a pull of {has} N at the hand over {cord.bends_deg:g} degrees "
        f"of bends{open_end}; {100 * limits.cord_share.value:g} % of the measured {use.pull_n:g} N is {allowed} N",
        remedy="" if fits else against.remedy if asked else CURE,
        source=source,
        question=asked,
        caution=f"{most - pull:.0f} N at the hand are left for the return elastic." if open_end and fits else "",
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
