"""Ways by hand on what goes into another printed part: ream the bore of a peg, sand the peg, file a tenon."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from planner.job import HandWork
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Key, Stand
from planner.remedy.ways.by_hand import DRILL_STEPS_MM, ROUND_MM, edits_of, minutes_for, orders, up
from planner.remedy.ways.by_hand import reamed as reamed_open
from planner.rules import FLAT_TOO, BearingPeg, BetweenTight, PegTight, Rule, at_least, bare

FINE_MM = 0.01
"""Callipers read a hundredth."""


def reamed(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:
    """Yield reaming the bores of a group, for the pegs that go in where they are printed, too."""
    rules = [rule for key in group.keys if isinstance(rule := _bound(stand, key), PegTight)]
    yield from _for_pegs(stand, group, rules) if rules else reamed_open(stand, group, again)


def _for_pegs(stand: Stand, group: Group, rules: list[PegTight]) -> Iterator[Candidate]:
    """Yield reaming for printed pegs, in steps that drills are sold in."""
    short = [rule for rule in rules if not at_least(rule.play.at(_factor(stand)), rule.need_mm.value)]
    if not short or any(rule.flat for rule in short):
        return  # gluing is no reaming, and no reamer widens what is not round
    for step in DRILL_STEPS_MM:
        works = [
            HandWork(
                part=rule.part,
                kind="ream",
                to_mm=up(rule.ream_mm(_factor(stand)), step),
                bores=(rule.bore.id,),
                depth_mm=None
                if rule.bore.through
                else down(rule.bore.depth_mm * rule.play.of_bore(_factor(stand)), 0.1),
            )
            for rule in short
        ]
        far = not all(rule.reamed_in_reach(_factor(stand)) for rule in short)
        why = f"of a bore over {short[0].drill_most_mm:g} mm a hand takes off {short[0].scrape_mm:g} mm at most"
        reaming = Candidate(kind="ream", text=orders(works), part=group.part, why_not=why if far else "")
        yield _by_hand(stand, group, reaming, works)


def sanded(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield sanding the pegs, or filing the flat faces, that do not go in, by as much as a hand takes off.

    A shaft goes through several parts: what is thinner all along it may be too loose in the next one, and then it is
    sanded only where it lies in this one.
    """
    works, why, s, flat = list[HandWork](), "", _factor(stand), False
    for key in group.keys:
        rule = _bound(stand, key)
        if isinstance(rule, BearingPeg):
            over_mm, most_mm = rule.printed_mm(s) - rule.hole_mm, rule.sand_mm.value
            work = HandWork(part=rule.part, kind="sand", to_mm=down(rule.hole_mm, FINE_MM), pegs=(rule.peg.id,))
        elif isinstance(rule, PegTight):
            over_mm, most_mm = rule.need_mm.value - rule.play.at(s), stand.job.limits.of("bearing.peg", "sand_mm").value
            to_mm = down(rule.play.peg_at(s) - over_mm, FINE_MM)
            work = HandWork(part=rule.peg_part, kind="sand", to_mm=max(to_mm, FINE_MM), pegs=(rule.peg.id,))
            flat = flat or rule.peg.flats_n > 0
        elif isinstance(rule, BetweenTight) and not rule.by_drawing:
            over_mm, most_mm = rule.need_mm.value - rule.play.at(s), rule.file_mm.value
            to_mm = down(rule.play.peg_at(s) - over_mm, FINE_MM)
            drawn_mm = round(rule.play.peg_mm, 2)
            work = HandWork(part=rule.part, kind="file", to_mm=max(to_mm, FINE_MM), into=rule.outer, drawn_mm=drawn_mm)
        else:
            return
        if over_mm <= 0.0:
            return  # it rattles: nothing is to be taken off
        works.append(work)
        if not at_least(most_mm, over_mm):
            why = f"{over_mm:.2f} mm is to come off, and a hand takes {most_mm:g} mm off"
    parts = {rule.part for key in group.keys if isinstance(rule := _bound(stand, key), PegTight)}
    tried = [works]
    if len(parts) == 1 and not why:
        tried.append([replace(work, into=min(parts)) for work in works])
    for each in tried:
        text = f"{orders(each)}{FLAT_TOO if flat else ''}"
        yield _by_hand(stand, group, Candidate(kind="sand", text=text, part=group.part, why_not=why), each)


def down(value_mm: float, step_mm: float) -> float:
    """Return a length rounded down to a step.

    >>> down(7.999, 0.01), down(8.0, 0.01)
    (7.99, 8.0)
    """
    return round(math.floor(value_mm / step_mm + ROUND_MM) * step_mm, 4)


def _by_hand(stand: Stand, group: Group, candidate: Candidate, works: list[HandWork]) -> Candidate:
    """Return a candidate with its edits and its minutes; what misses by a hair is tried as it is first."""
    text = candidate.text
    near = all(
        f.measured is not None and f.limit is not None and abs(f.limit - f.measured) < 0.05 for f in group.findings
    )
    return replace(
        candidate,
        text=f"try it first; if it binds, {text}" if near else text,
        does=edits_of(works),
        costs=Costs(minutes_min=minutes_for(stand.job, works), money=0.0),
    )


def _factor(stand: Stand) -> float:
    """Return the factor of the job's size."""
    return stand.percent / 100.0


def _bound(stand: Stand, key: Key) -> Rule | None:
    """Return the rule of a key itself, out of what is wrapped about it, a question that does not matter here too."""
    bound = (rule for rule in stand.rules if (rule.rule, rule.part, rule.feature) == key)
    return next((bare(rule, _factor(stand)) for rule in bound), None)
