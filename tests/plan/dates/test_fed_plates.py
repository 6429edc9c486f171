"""Fed plates: a schedule is made again with fewer plates side by side only where that leaves fewer grams short."""

from __future__ import annotations

from dataclasses import replace

from planner.job import Spool
from planner.plan import Plan
from planner.plan.dates.fed_plates import Feeds, feeding_of, fewest_short
from planner.plan.dates.spool_ends import JobToFeed
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Feed, JobLoads, Planned, PlateLoad
from planner.schedule.calendar.timetable import Problem

REEL = "petg any"


def _loads(plan: Plan) -> JobLoads:
    """Return the plates of a plan on two printers, with two spools."""
    calendar, printer = plan.job.calendar, plan.job.printer
    assert calendar is not None
    takes = {printer.name: 3600.0, "other": 3600.0}
    loads = tuple(PlateLoad(plate=plate.number, takes_s=takes, reel=REEL) for plate in plan.plates)
    both = {name: frozenset({REEL}) for name in ("S0", "S1")}
    return JobLoads(loads=loads, calendar=calendar, printers=(printer, replace(printer, name="other")), reels=both)


def test_fewer_at_once_stand_only_where_they_help(heron_plan: Plan) -> None:
    """By hand: 20 g short with two spools at once; with one, none short is taken, and as much, or a plate untimed, is not."""
    spools = tuple(Spool(material=heron_plan.material.name, left_g=5000.0, id=f"S{n}") for n in range(2))
    inputs = PlateInputs.at(heron_plan.stage.sized, replace(heron_plan.job, spools=spools))
    asking: list[JobToFeed] = [(inputs, heron_plan.plates, {}, {})]
    loads = (_loads(heron_plan),)

    def at_once(made: tuple[JobLoads, ...]) -> int:
        return sum(REEL in feeds for feeds in made[0].reels.values())

    for alone_g, unmet_n, kept in ((0.0, 0, 1), (20.0, 0, 2), (0.0, 1, 2)):

        def fed_by(n: int, alone_g: float = alone_g, unmet_n: int = unmet_n) -> tuple[Feeds, int]:
            grams = 20.0 if n == 2 else alone_g
            return [(Feed(plate=1, reels=(), ends_min=(), short_g=grams, unattended=False),)], unmet_n * (n == 1)

        assert fewest_short(asking, loads, at_once, fed_by)[1] == kept


def test_a_spool_that_is_bought_feeds_what_was_short(heron_plan: Plan) -> None:
    """One spool of 1 g feeds no plate of the Heron; with one more of plenty a colour, all are fed, one after the other."""
    spools = (Spool(material=heron_plan.material.name, left_g=1.0, id="S0"),)
    inputs = PlateInputs.at(heron_plan.stage.sized, replace(heron_plan.job, spools=spools))
    feeding = feeding_of([(inputs, heron_plan.plates, {}, {})])
    whole, name = _loads(heron_plan), heron_plan.job.printer.name
    jobs = (replace(whole, reels={}, loads=tuple(replace(x, takes_s={name: 3600.0}) for x in whole.loads)),)

    def made(loads: tuple[JobLoads, ...]) -> Planned:
        problem = Problem.of(loads)
        return Planned(jobs=loads, problem=problem, placed=problem.dispatched(1))

    assert feeding(jobs, (), made)[1] == {0}
    more = tuple(
        (f"more {n}", f"{heron_plan.material.name} {colour}", 9000.0) for n, colour in enumerate(_colours(heron_plan))
    )
    assert feeding(jobs, more, made)[1] == frozenset()


def _colours(plan: Plan) -> list[str]:
    """Return the colours of a plan's plates."""
    return sorted({plate.group.colour for plate in plan.plates})
