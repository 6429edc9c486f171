"""Movement and strength of a prepared device: what cannot be known is a hold, never nothing."""

from __future__ import annotations

from datetime import date

from planner.finding import Verdict
from planner.plan import movement, prepare, strengths
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)
HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def test_a_loaded_part_without_a_load_is_held(make_job: MakeJob) -> None:
    """Nobody has said what it carries: one hold for the part, in one sentence."""
    ready = prepare(make_job(HEAD, a=cuboid(40, 10, 10)), TODAY)
    found = [(one.part, finding.verdict) for one, finding in strengths(ready, 1.0)]

    assert found == [("a", Verdict.HOLD)]


def test_parts_of_an_open_unit_do_not_move_before_it_is_known(make_job: MakeJob) -> None:
    """A plate of 1.1 units is no part of a device in mm: its movement is held with that question."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n[[part]]\nname = "b"\nmesh = "b.stl"\n'
    ready = prepare(make_job(text, a=cuboid(1.1, 1.1, 0.12), b=cuboid(120, 40, 20)), TODAY)
    moving, rules = movement(ready)

    assert moving is None
    assert [rule.at(1.0).verdict for rule in rules if rule.rule == "move.range"] == [Verdict.HOLD]


def test_a_unit_of_the_whole_job_is_not_asked_for_again(make_job: MakeJob) -> None:
    """The job says mm, one mesh cannot be meant so: what helps is that part's own unit, by name."""
    text = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'
    more = '[[part]]\nname = "b"\nmesh = "b.stl"\n'
    ready = prepare(make_job(text + more, a=cuboid(1.1, 1.1, 0.12), b=cuboid(120, 40, 20)), TODAY)
    (held,) = (rule.at(1.0) for rule in movement(ready)[1] if rule.rule == "move.range")

    assert held.remedy == "state mesh_unit in the [[part]] of a"
