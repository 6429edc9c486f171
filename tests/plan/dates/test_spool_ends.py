"""Spools of a plan: letters for those without an id, and somebody there when one ends."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from planner.finding import Verdict
from planner.job import Job, Spool
from planner.plan import Plan
from planner.plan.dates.spool_ends import ends_at, reels_of, spool_end_findings, spool_lines, watched_note
from planner.schedule import Clocks, Feed, Reel

ONE, TWO = Reel(name="A", colour="green", left_g=50.0, job=0), Reel(name="S7", colour="green", left_g=500.0)


def _clocks(plan: Plan, feed: Feed) -> Clocks:
    """Return the plan's clocks with one plate's feed."""
    assert plan.clocks is not None
    return replace(plan.clocks, feeds=(feed,))


def _feed(**more: object) -> Feed:
    """Return the feed of plate 1 from two spools, the first of which ends after 90 minutes."""
    feed = Feed(plate=1, reels=(ONE, TWO), ends_min=(90.0,), short_g=0.0, unattended=False)
    return replace(feed, **more)  # type: ignore[arg-type]


def _with(job: Job, *spools: Spool) -> Job:
    """Return a job with other spools."""
    return replace(job, spools=spools)


def test_spools_have_letters_in_the_order_of_the_file_and_ids_serve_all_jobs(heron_plan: Plan) -> None:
    """The second spool has an id: it is no job's own; one of another material counts for nothing, not for a letter."""
    job, petg = heron_plan.job, heron_plan.material
    spools = (
        Spool(material=petg.name, colour="green", left_g=100.0),
        Spool(material="pla", colour="green"),
        Spool(material=petg.name, colour="black", left_g=200.0, id="S7"),
        Spool(material=petg.name, colour="any", left_g=300.0),
    )
    found = reels_of(_with(job, *spools), petg, 4)

    assert [(reel.name, reel.colour, reel.left_g, reel.job) for reel in found] == [
        ("A", "green", 100.0, 4),
        ("S7", "black", 200.0, None),
        ("C", "any", 300.0, 4),
    ]


def test_one_spool_of_unknown_grams_leaves_all_uncounted(heron_plan: Plan) -> None:
    """Nobody can say when it ends."""
    petg = heron_plan.material
    spools = Spool(material=petg.name, left_g=100.0), Spool(material=petg.name, left_g=None)

    assert reels_of(_with(heron_plan.job, *spools), petg, 0) == ()


def test_the_end_of_a_spool_is_told_on_the_clock(heron_plan: Plan) -> None:
    """Ninety minutes after the plate's start, in the sentence and as a date."""
    clocks = _clocks(heron_plan, _feed())
    start = next(run.start for run in clocks.table.runs if run.plate == 1)
    assert start is not None
    (line,) = spool_lines(clocks)

    assert ends_at(clocks.table, clocks.feeds[0]) == (start + timedelta(minutes=90),)
    assert line.startswith("plate 1 from spool A (green); spool A ends about 1.5 h into it: be there at ")
    assert line.endswith(f"{start + timedelta(minutes=90):%H:%M} with spool S7")


@pytest.mark.parametrize(
    ("more", "verdict", "told"),
    [
        ({}, Verdict.GO, "with spool S7"),
        ({"unattended": True}, Verdict.HOLD, ", when nobody is there"),
        ({"reels": (ONE,), "short_g": 30.0}, Verdict.HOLD, "with a new one of 30 g"),
    ],
)
def test_an_end_is_a_caution_and_a_hold_where_nobody_is_there_or_grams_are_short(
    heron_plan: Plan, more: dict[str, object], verdict: Verdict, told: str
) -> None:
    """Only a hold has a remedy, only a go a caution."""
    (found,) = spool_end_findings(_clocks(heron_plan, _feed(**more)))

    assert found.verdict is verdict
    assert found.why.endswith(told)
    assert bool(found.remedy) is (verdict is Verdict.HOLD)
    assert found.caution == ("" if verdict is Verdict.HOLD else found.why)


def test_a_plate_on_one_spool_needs_nobody(heron_plan: Plan) -> None:
    """No end, no finding; where no spool is left, the line says how many grams are missing."""
    clocks = _clocks(heron_plan, _feed(reels=(TWO,), ends_min=()))
    bare = _clocks(heron_plan, _feed(reels=(), ends_min=(), short_g=80.0))

    assert spool_end_findings(clocks) == ()
    assert spool_lines(bare) == ["no spool is left for plate 1: 80 g with the reserve"]
    assert watched_note([3, 1]).startswith("plate 1 and 3: ")
