"""Where a cord runs: in the channel of the size stated, else in the smallest that takes it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.job import Job
from planner.rules.of_job.channel_rules import channel_rules, ways_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
CORD = '[[cord]]\nname = "it"\npart = "a"\ndiameter_mm = 1.5\n'
PLATE = replace(bored_plate(60, 40, 8, [(10, 20, 1.2, 48), (25, 20, 3.0, 48), (45, 20, 5.0, 48)]), name="a")
DOWN = {"a": (0.0, 0.0, -1.0)}


def _widths(job: Job, taken: frozenset[tuple[str, str]] = frozenset()) -> list[float]:
    """Return the drawn widths of the straight channels that the cord runs in."""
    return [round(bore.drawn_diameter_mm, 2) for bore in ways_of(job, job.cords[0], survey(PLATE), taken).bores]


def test_a_cord_runs_in_the_smallest_channel_that_takes_it_or_in_the_one_stated(make_job: MakeJob) -> None:
    """1.5 mm go through 3 and 5, not through 1.2; with 5 mm stated it is that one; a bore with a pin in it is none."""
    job = make_job(PART + CORD, a=PLATE)
    pin = next(bore.id for bore in survey(PLATE).bores if round(bore.drawn_diameter_mm) == 3)

    assert _widths(job) == [3.0]
    assert _widths(job, frozenset({("a", pin)})) == [5.0]
    assert _widths(make_job(PART + CORD + "channel_mm = 5.0\n", a=PLATE)) == [5.0]


def test_what_is_judged_is_the_channel_found_and_the_job_is_told_that_it_was_guessed(make_job: MakeJob) -> None:
    """One rule about the bore of 3 mm, claimed from then on; no guess where its width is stated."""
    guessed, stated = (make_job(PART + CORD + more, a=PLATE) for more in ("", "channel_mm = 3.0\n"))
    found, known = (channel_rules(job, {"a": survey(PLATE)}, DOWN, frozenset()) for job in (guessed, stated))

    assert [rule.rule for rule in found.rules] == ["channel.tight"]
    assert found.bores == known.bores == {("a", found.rules[0].feature)}
    assert [guess.value for guess in found.guesses] == ["3.00 mm"]
    assert known.guesses == ()


@pytest.mark.parametrize(("stated_mm", "near"), [(3.6, True), (30.0, False)])
def test_a_channel_that_the_mesh_has_not_is_held_with_what_comes_nearest(
    make_job: MakeJob, stated_mm: float, near: bool
) -> None:
    """3.6 mm: the one of 3 is nearest. Of 30 mm nothing is like it."""
    job = make_job(f"{PART}{CORD}channel_mm = {stated_mm}\n", a=PLATE)
    (rule,) = channel_rules(job, {"a": survey(PLATE)}, DOWN, frozenset()).rules
    told = rule.at(1.0)

    assert (told.rule, told.verdict.value) == ("stated.differs", "hold")
    assert (told.measured == pytest.approx(3.0)) if near else (told.measured is None)
