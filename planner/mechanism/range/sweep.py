"""The first value of a joint at which two bodies come too near, found in steps that nothing can be jumped over in."""

from __future__ import annotations

from planner.mechanism.places.frame import Frame
from planner.mechanism.range.boxes_on_way import APART, Course, Motion, box_of, on_way
from planner.mechanism.range.two_bodies import Meeting

ARC_MM = 0.8
"""A step may carry a body so far without being proved free: no printed wall is thinner than both lines of it."""
MOST = APART
"""Most degrees or mm of one step."""
EXACT = 0.02
"""Stops are exact to this, in degrees or mm."""


def first_meeting(
    meeting: Meeting, motion: Motion, way: tuple[float, float], asked_mm: float, course: Course | None = None
) -> tuple[float, float] | None:
    """Return the last value that is free and the next that is not, within ``EXACT``; None where all is free.

    Where a ``course`` of the way is given, only what its boxes leave open is gone over.
    """
    clear_mm = meeting.clearance_mm(asked_mm)
    ways = [way]
    if course is not None:
        ways = list(on_way(course.spans(meeting.groups, box_of(meeting.one), box_of(meeting.other), clear_mm), way))
    return next((met for part in ways if (met := _first(meeting, motion, part, clear_mm))), None)


def _first(meeting: Meeting, motion: Motion, way: tuple[float, float], clear_mm: float) -> tuple[float, float] | None:
    """Return the same on a part of a way, the clearance being that of these bodies.

    Where even the start is not free, it is both. A body that is farther away than it can travel in a step is free all
    the way (Lipschitz; conservative advancement, Mirtich 1996); where it is nearer than that, steps carry it no
    farther than ``ARC_MM``, so that it overlaps what it passes through.
    """
    start, end = way
    sense = 1.0 if end > start else -1.0
    free, here = start, meeting.between(motion(start))
    if not here.still and too_near(meeting, here, clear_mm):
        return start, start
    step = MOST
    while sense * (end - free) > 1e-9:
        gap = 0.0 if meeting.touching else meeting.gap_mm(here, clear_mm + 2 * ARC_MM) - clear_mm
        while True:
            ahead = free + sense * min(step, sense * (end - free))
            there = meeting.between(motion(ahead))
            travel = meeting.travel_mm(here, there)
            if travel <= max(gap, ARC_MM) or step < EXACT:
                break
            step /= 2
        if travel >= gap and too_near(meeting, there, clear_mm):
            return _bisected(meeting, motion, (free, ahead), clear_mm)
        free, here, step = ahead, there, min(2 * step, MOST)
    return None


def too_near(meeting: Meeting, step: Frame, clear_mm: float) -> bool:
    """Return whether two bodies are nearer than asked, or meet."""
    if meeting.near_mm(step) > clear_mm:
        return False
    if clear_mm > 0 and not meeting.touching:
        return meeting.gap_mm(step, clear_mm + 1e-3) < clear_mm
    return meeting.overlap(step) is not None


def _bisected(meeting: Meeting, motion: Motion, ends: tuple[float, float], clear_mm: float) -> tuple[float, float]:
    """Halve a span of the joint's value until it is small enough."""
    free, met = ends
    while abs(met - free) > EXACT:
        middle = (free + met) / 2
        if too_near(meeting, meeting.between(motion(middle)), clear_mm):
            met = middle
        else:
            free = middle
    return free, met
