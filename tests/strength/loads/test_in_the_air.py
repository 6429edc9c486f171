"""A load that is stated off its part leaves that part untold, and the others as they are."""

from __future__ import annotations

from planner.mechanism import STILL
from planner.strength.loads.in_the_air import loads_in_the_air
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n'
PART = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "load"\nload_at_mm = [5, 5, {1}]\n'


def test_a_load_above_a_part_is_told_and_one_on_it_is_not(make_job: MakeJob) -> None:
    """Blocks of 10 mm: on top of the one, 30 mm above the top of the other."""
    solids = {name: cuboid(10, 10, 10) for name in ("on", "off")}
    job = make_job(TEXT + PART.format("on", 10) + PART.format("off", 40), **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    away, others = loads_in_the_air(job, solids, surveys, dict.fromkeys(solids, STILL), None, solids.keys())

    assert others == {"on"}
    assert away.keys() == {"off"}
    assert "lies 30.0 mm off off" in away["off"]


def test_a_load_beside_the_second_copy_alone_is_told(make_job: MakeJob) -> None:
    """What is fast to the first copy carries the load at its side; beside the second one there is nothing."""
    solids = {"on": cuboid(10, 10, 10), "more": cuboid(10, 10, 40).moved((0.0, 0.0, 10.0))}
    text = PART.format("on", 40).replace('mesh = "on.stl"\n', 'mesh = "on.stl"\ncount = 2\n')
    job = make_job(TEXT + text + '[[part]]\nname = "more"\nmesh = "more.stl"\n', **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    one = dict.fromkeys(solids, STILL)
    both = {**one, "on#2": STILL.slid_along((1.0, 0.0, 0.0), 100.0)}
    alone, twice = (loads_in_the_air(job, solids, surveys, frames, None, ["on"])[0] for frames in (one, both))

    assert not alone
    assert "off on#2" in twice["on"]
