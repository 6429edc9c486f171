"""Spools at once: those that feed a plate whole let plates run side by side, and others do not."""

from __future__ import annotations

from dataclasses import replace

from planner.job import Spool
from planner.plan import Plan
from planner.plan.dates.as_it_stands import Drawn
from planner.plan.dates.spool_ends import JobToFeed
from planner.plan.dates.spools_at_once import at_once, with_fewer_at_once
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Feed, JobLoads, PlateLoad


def _asking(plan: Plan, *left_g: float, drawn: float = 0.0) -> JobToFeed:
    """Return the plan's plates with spools S0, S1, … of any colour, and what others draw from S0."""
    spools = tuple(
        Spool(material=plan.material.name, colour="any", left_g=grams, id=f"S{n}") for n, grams in enumerate(left_g)
    )
    inputs = PlateInputs.at(plan.stage.sized, replace(plan.job, spools=spools))
    return inputs, plan.plates, {"S0": Drawn(grams=drawn)}, {}


def _least_g(plan: Plan) -> float:
    """Return the grams of the plan's lightest plate, the reserve included."""
    return plan.job.limits.spool_reserve.value * min(plate.mass_g.value for plate in plan.plates if plate.mass_g)


def test_a_spool_counts_for_the_plates_that_it_feeds_whole(heron_plan: Plan) -> None:
    """Just enough for the lightest plate counts; a gram less, or drawn by other plates, does not; a full one always."""
    grams = _least_g(heron_plan)

    assert set(at_once(_asking(heron_plan, grams + 0.1, 5000.0))) == {"S0", "S1"}
    assert set(at_once(_asking(heron_plan, grams - 1.0, 5000.0))) == {"S1"}
    assert set(at_once(_asking(heron_plan, 5000.0, 5000.0, drawn=5001.0 - grams))) == {"S1"}


def test_where_no_spool_feeds_a_plate_whole_the_fullest_counts(heron_plan: Plan) -> None:
    """Colours are never left uncounted while there is filament at all."""
    assert set(at_once(_asking(heron_plan, 0.5, 0.7))) == {"S1"}


def test_a_plate_that_is_short_waits_for_a_spool_that_is_idle_later(heron_plan: Plan) -> None:
    """Two spools at once become the fuller one; not where grams lack altogether, not where nothing is short."""
    reel, calendar = "petg any", heron_plan.job.calendar
    assert calendar is not None
    both = {name: frozenset({reel}) for name in ("S0", "S1")}
    load = PlateLoad(plate=1, takes_s={heron_plan.job.printer.name: 3600.0}, reel=reel)
    printers = heron_plan.job.printer, replace(heron_plan.job.printer, name="other")
    loads = (JobLoads(loads=(load,), calendar=calendar, printers=printers, reels=both),)
    short = Feed(plate=1, reels=(), ends_min=(), short_g=20.0, unattended=False)
    plenty, poor = _asking(heron_plan, 900.0, 5000.0), _asking(heron_plan, 1.0, 2.0)

    assert with_fewer_at_once([plenty], loads, [(short,)])[0].reels == {"S0": frozenset(), "S1": frozenset({reel})}
    assert with_fewer_at_once([poor], loads, [(short,)]) == ()
    assert with_fewer_at_once([plenty], loads, [(replace(short, short_g=0.0),)]) == ()
