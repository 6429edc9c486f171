"""How near bodies come while a joint goes over the range that it needs."""

from __future__ import annotations

from collections.abc import Sequence

from planner.mechanism.range.boxes_on_way import Motion
from planner.mechanism.range.joint_range import LeastGap
from planner.mechanism.range.sweep import ARC_MM, MOST
from planner.mechanism.range.two_bodies import AT_REST, SEARCH_MM, TOUCH_MM, Meeting

BEYOND_MM = 0.2
"""Gaps are looked for so much beyond the least known: farther makes steps longer, and each one dearer."""
FINE = 0.05
"""The place of the least gap is found to this, in degrees or mm."""
GOLDEN = (5**0.5 - 1) / 2


def least_gap(
    meetings: Sequence[Meeting], motion: Motion, needs: tuple[float, float], *, free: bool = False
) -> LeastGap | None:
    """Return the least gap over a range between bodies that come nearer than at rest; None where none does.

    Sampled at steps that carry no body farther than ``ARC_MM``, then by golden section about the least (Kiefer 1953).
    Bodies that touch at rest have a gap only where they meet: where the range is known to be ``free``, they do not.
    """
    best: LeastGap | None = None
    rest = {names: min(m.rest_gap_mm for m in meetings if m.names == names) for names in {m.names for m in meetings}}
    for meeting in meetings:
        if free and meeting.touching:
            continue
        drawn = meeting.rest_gap_mm if rest[meeting.names] < TOUCH_MM else rest[meeting.names]
        most = SEARCH_MM if meeting.touching else min(SEARCH_MM, AT_REST * drawn)
        found = _over(meeting, motion, needs, most if best is None else min(most, best.gap_mm))
        if found is not None:
            best = LeastGap(gap_mm=found[0], at_deg=found[1], parts=meeting.names)
            if best.gap_mm == 0.0:
                break
    return best


def _over(meeting: Meeting, motion: Motion, needs: tuple[float, float], most_mm: float) -> tuple[float, float] | None:
    """Return the least gap of two bodies below a length and its place; None where there is none."""
    low, high = needs
    best: tuple[float, float] | None = None
    at, here, step = low, meeting.between(motion(low)), MOST
    before = at
    while True:
        gap = meeting.gap_mm(here, most_mm + BEYOND_MM)
        if gap < (most_mm if best is None else best[0]):
            best, before = (gap, at), step
            if gap == 0.0:
                return best
        if at >= high:
            break
        room = max(gap - most_mm, ARC_MM)
        step = min(2 * step, MOST, high - at)
        while True:
            there = meeting.between(motion(at + step))
            if meeting.travel_mm(here, there) <= room or step < FINE:
                break
            step /= 2
        at, here = (high if step >= high - at else at + step), there
    return (
        None
        if best is None
        else _finer(meeting, motion, best, (max(low, best[1] - before), min(high, best[1] + before)))
    )


def _finer(
    meeting: Meeting, motion: Motion, best: tuple[float, float], ends: tuple[float, float]
) -> tuple[float, float]:
    """Return a least gap and its place by golden section."""
    a, b = ends

    def gap(at: float) -> float:
        return meeting.gap_mm(meeting.between(motion(at)), SEARCH_MM)

    c, d = b - GOLDEN * (b - a), a + GOLDEN * (b - a)
    at_c, at_d = gap(c), gap(d)
    while b - a > FINE:
        best = min(best, (at_c, c), (at_d, d))
        if at_c <= at_d:
            b, d, at_d = d, c, at_c
            c = b - GOLDEN * (b - a)
            at_c = gap(c)
        else:
            a, c, at_c = c, d, at_d
            d = a + GOLDEN * (b - a)
            at_d = gap(d)
    return best
