"""The sizes at which re-boring begins to do something else, worked out by hand, and found by re-boring itself."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from math import cos, pi

import pytest

from planner.assembly import claims_of
from planner.job import Job, with_changes
from planner.plan import Prepared, prepare
from planner.rebore import other_work, rebored
from planner.rebore.opening_targets import aims_of
from tests.conftest import MakeJob
from tests.shapes import bored_plate

PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
)
WEB_MM, LIMIT_MM = 1.55, 1.35


@pytest.fixture(name="ready")
def _ready(make_job: MakeJob) -> Prepared:
    """Return a plate with one bore of 5.3 mm, 1.55 mm from its side."""
    job: Job = make_job(PART + PIN, a=bored_plate(60, 40, 8, [(WEB_MM + 2.65, 20, 5.3, 48)]))
    return prepare(with_changes(job, percent=100.0), date(2026, 12, 1))


def _does(ready: Prepared, factor: float) -> tuple[tuple[str, bool, bool, bool], ...]:
    """Return what re-boring does at a scale: to which opening, whether it is left, and whether it grows."""
    claims = claims_of(ready.job, ready.surveys).claims
    found = rebored(ready.job, ready.solids, ready.surveys, claims, ready.downs, factor)
    return tuple(
        (change.kind, bool(change.kept), change.after_mm > change.before_mm, "break" in change.kept)
        for change in found.changes
    )


def test_work_changes_at_the_sizes_that_are_named_and_nowhere_between(ready: Prepared) -> None:
    """Fit by the ends of the hardware, the boss where (1.55 + 2.65) s - d/2 is 1.35 mm; what is done says the same."""
    claims = claims_of(ready.job, ready.surveys).claims
    turns = [turn for turn in other_work(ready.job, ready.surveys, claims, ready.downs)["a"] if 0.3 < turn < 1.6]
    (aim,) = aims_of(ready.job, ready.surveys, claims, ready.downs, {"a": 1.0})
    assert aim.least_mm is not None
    inside = 5.3 * cos(pi / 48)
    boss = (LIMIT_MM + aim.target_mm / cos(pi / 64) / 2) / (WEB_MM + 2.65)

    for by_hand in (aim.least_mm / inside, aim.most_mm / inside, boss):
        assert min(abs(turn - by_hand) for turn in turns) < 1e-4
    does = [_does(ready, s) for s in (k / 100.0 for k in range(41, 160, 2))]
    for k, (before, after) in enumerate(pairwise(does)):
        low, high = (0.41 + 0.02 * k, 0.43 + 0.02 * k)
        assert before == after or any(low - 1e-9 <= turn <= high + 1e-9 for turn in turns), (low, before, after)
    assert len(set(does)) >= 4
