"""Cord force: what the hand must pull, against what it can."""

from __future__ import annotations

import math

from planner.finding import Finding, Verdict
from planner.job import Cord, Limits, Use


def cord_pull_n(grip_n: float, lever: float, bends_deg: float, friction: float) -> float:
    """Return the pull at the cord's end: grip x lever x e^(mu theta), the capstan equation (Euler, Eytelwein).

    >>> round(cord_pull_n(1.0, 1.0, 180.0, 0.2), 4)
    1.8745
    """
    return grip_n * lever * math.exp(friction * math.radians(bends_deg))


def cord_force(cord: Cord, use: Use, limits: Limits) -> Finding:
    """Judge a cord's pull, ``cord.force``: a hold over the share of the measured pull, a note without one."""
    friction = limits.cord_friction.value if cord.friction is None else cord.friction
    source = f"{limits.cord_share.source}; friction: {limits.cord_friction.source if cord.friction is None else 'job'}"
    if use.load_n is None or use.pull_n is None:
        missing = "load_n" if use.load_n is None else "pull_n, the largest pull measured"
        known = "" if use.load_n is None else f" {cord_pull_n(use.load_n, cord.lever, cord.bends_deg, friction):.0f} N"
        return Finding(
            rule="cord.force",
            part=cord.part,
            feature=cord.name,
            verdict=Verdict.GO,
            measured=cord_pull_n(use.load_n, cord.lever, cord.bends_deg, friction) if use.load_n else None,
            unit="N",
            why=f"the pull on {cord.name}{known} is not compared: [use] gives no {missing}",
            source=source,
            caution="Cord forces of body-powered devices are large; a clinician decides what a person may pull.",
        )
    pull, most = cord_pull_n(use.load_n, cord.lever, cord.bends_deg, friction), limits.cord_share.value * use.pull_n
    return Finding(
        rule="cord.force",
        part=cord.part,
        feature=cord.name,
        verdict=Verdict.GO if pull <= most else Verdict.HOLD,
        measured=pull,
        limit=most,
        unit="N",
        why=f"{use.load_n:g} N at the jaw pulls {pull:.0f} N at the hand over {cord.bends_deg:g} degrees of bends; "
        f"{100 * limits.cord_share.value:g} % of the measured {use.pull_n:g} N is {most:.0f} N",
        remedy="" if pull <= most else "fewer bends, a longer lever or a lighter grip; ask a clinician",
        source=source,
    )
