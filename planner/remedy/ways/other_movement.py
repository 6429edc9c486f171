"""What helps a device that moves too little: asking less of it, or a stiffer elastic."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planner.finding import Finding
from planner.job import Edit, Joint
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Stand
from planner.scale import Scale

STEP_DEG = 0.5
"""A range is asked for in steps of this; common practice, no source."""
GRIP_SHARES = (0.9, 0.8, 0.7, 0.6, 0.5)
"""Shares of the grip that are tried, the most first; with less than half it is another device."""
STIFFER = (1.25, 1.5, 2.0, 3.0)
"""How many times as stiff an elastic is tried, the least first."""


def less_needed(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield less range, or a lighter grip: only the person can say whether that is enough, so it is tried last."""
    if group.kind.gives == "range":
        yield from _less_range(stand, group.findings[0])
    elif group.kind.gives == "pull" and group.findings[0].limit is not None:
        yield from _lighter_grip(stand)


def stiffer_elastic(stand: Stand) -> Iterator[Candidate]:
    """Yield every elastic of the device a little stiffer, then more."""
    for cord in stand.job.cords:
        if cord.kind != "elastic" or cord.rate_n_per_mm is None:
            continue
        for times in STIFFER:
            put = {"rate_n_per_mm": float(f"{cord.rate_n_per_mm * times:.3g}")}
            told = f"{put['rate_n_per_mm']:g} N a mm"
            if cord.force_n is not None:
                put["force_n"] = float(f"{cord.force_n * times:.3g}")
                told += f", {put['force_n']:g} N at full stretch"
            yield Candidate(
                kind="hardware",
                text=f"take a stiffer {cord.name}: {told}",
                part=cord.part,
                does=(Edit(table="cord", name=cord.name, put=put),),
                costs=Costs(minutes_min=0.0, money=None),
            )


def _less_range(stand: Stand, finding: Finding) -> Iterator[Candidate]:
    """Yield the range that the joint has, where a part of what is needed is left."""
    joint = next((one for one in stand.job.joints if finding.feature in (one.name, " to ".join(one.copies))), None)
    if joint is None or joint.needs_deg is None or finding.measured is None or finding.limit is None:
        return
    low, high = joint.needs_deg
    unit, grows = ("mm", Scale(stand.percent).factor) if finding.unit == "mm" else ("°", 1.0)
    has = finding.measured / grows
    if abs(finding.limit / grows - high) < abs(finding.limit / grows - low):
        high = math.floor(has / STEP_DEG + 1e-9) * STEP_DEG
    else:
        low = math.ceil(has / STEP_DEG - 1e-9) * STEP_DEG
    name = joint.name or " to ".join(joint.copies)
    text = f"let {name} need only {low:g} to {high:g} {unit}, if that is enough".replace(" °", "°")
    why = "" if low < high else "nothing of the range that it needs is left"
    yield Candidate(kind="needs", text=text, does=(_asking(joint, low, high),), why_not=why)


def _asking(joint: Joint, low: float, high: float) -> Edit:
    """Return the edit that asks a joint for another range."""
    return Edit(table="joint", name=" to ".join(joint.copies), put={"needs_deg": [low, high]})


def _lighter_grip(stand: Stand) -> Iterator[Candidate]:
    """Yield lighter grips, that nearest to what is wanted first."""
    wanted = stand.job.use.wanted_grip_n
    if wanted is None:
        return
    for share in GRIP_SHARES:
        grip = float(f"{wanted * share:.2g}")
        yield Candidate(
            kind="needs",
            text=f"ask for a grip of {grip:g} N instead of {wanted:g} N, if that is enough",
            does=(Edit(table="use", put={"grip_n": grip}),),
        )
