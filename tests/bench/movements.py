"""Benches of movement: an arm among many blocks, and which way up a lever lies, with what is told first and without."""

from __future__ import annotations

import os
import time
from unittest.mock import patch

from planner.mechanism import STILL, Frame
from planner.mechanism.range.boxes_on_way import box_of, course_of
from planner.mechanism.range.sweep import first_meeting
from planner.mechanism.range.two_bodies import Meeting
from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.first_look import MISSED, share_about
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import Manifold, bored_plate
from tests.strength.beam.test_beam_pass import SOLID

BLOCKS_N = 60
SMALLEST_MM = 0.02


def among_blocks() -> dict[str, object]:
    """Time an arm of 40 mm that turns once among 60 blocks, 6 of them within its reach, against following every pair."""
    arm = Manifold.cube((40, 8, 4)).translate((0, -4, 0))
    places = [(30.0 + 11.0 * (n % 10), 30.0 + 11.0 * (n // 10)) for n in range(BLOCKS_N)]
    blocks = [Manifold.cube((5, 5, 4)).translate((x - 30.0, y, 0.0)) for x, y in places]

    def motion(value: float) -> list[Frame]:
        return [STILL, STILL.turned_about((0.0, 0.0, 1.0), (0.0, 0.0, 0.0), value)]

    def ends(*, told: bool) -> tuple[list[tuple[float, float] | None], float]:
        begun = time.process_time()
        course = course_of(motion, 0.0, 360.0) if told else None
        found: list[tuple[float, float] | None] = []
        for block in blocks:
            if course is not None and not course.spans((0, 1), box_of(block), box_of(arm), SMALLEST_MM):
                found.append(None)
                continue
            met = Meeting(names=("block", "arm"), groups=(0, 1), one=block, other=arm, search_mm=SMALLEST_MM)
            found.append(first_meeting(met, motion, (0.0, 360.0), 0.0, course))
        return found, time.process_time() - begun

    (ours, fast), (theirs, slow) = ends(told=True), ends(told=False)
    for one, other in zip(ours, theirs, strict=True):
        if (one is None) != (other is None) or (one and other and abs(one[0] - other[0]) > 0.1):
            raise SystemExit(f"stops differ: {one} and {other}")
    stops_n = sum(one is not None for one in ours)
    return {
        "name": "an arm among blocks",
        "ours_s": fast,
        "peer": "every pair followed all the way round",
        "peer_s": slow,
        "ratio": slow / fast,
        "size": f"{BLOCKS_N} blocks, {stops_n} stop it",
    }


def about_a_lever() -> dict[str, object]:
    """Time a first look at a lever under eight loads, by which its pose is chosen, against judging all its cuts."""
    lever = bored_plate(90, 14, 6, [(7, 7, 4.4, 10), (45, 7, 3.4, 10), (83, 7, 4.4, 10)])
    held = [Support(at_mm=(7.0, 7.0, 3.0))]
    ways = [(0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (0.6, 0.8, 0.0)]
    pushes = [PartLoad(at_mm=(x, 7.0, 3.0), force_n=way) for x in (45.0, 83.0) for way in ways]
    cases = tuple(known_case([push], held, "pushed") for push in pushes)
    with patch.dict(os.environ, FITWRIGHT_CACHE="off"):  # what an earlier run kept would be told in no time
        begun = time.process_time()
        about = share_about(lever, cases, SOLID, 1.0)
        fast, begun = time.process_time() - begun, time.process_time()
        every = weakest(lever, cases, SOLID)
        slow = time.process_time() - begun
    if about is None or every is None or every.share_percent[KNOTS.index(1.0)] > 100.0 * MISSED * about:
        raise SystemExit(f"the first look missed too much: {about} of {every}")
    return {
        "name": "a first look at a lever",
        "ours_s": fast,
        "peer": "all its cuts judged",
        "peer_s": slow,
        "ratio": slow / fast,
        "size": f"{len(cases)} loads, {every.cuts_n} cuts",
    }


MOVEMENT_BENCHES = {"movement": among_blocks, "first look": about_a_lever}
