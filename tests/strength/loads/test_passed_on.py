"""What carries a loaded part takes its load with the moment that it has about the joint: statics, by hand."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from planner.assembly import claims_of
from planner.job import Job
from planner.mechanism import STILL
from planner.mesh import Solid
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.strength.loads.part_supports import supports_of
from planner.strength.loads.passed_on import loads_on_others
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

PART = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "load"\n'
SCREW = '[[hardware]]\nname = "{0}"\nkind = "machine-screw"\ndiameter_mm = 4.0\njoins = {1}\nbore_mm = {2}\nfit = "sliding"\n'
TURNS = '[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\n'
PLACED = "load_at_mm = [100.0, 0.0, 20.0]\n"


def _cases(
    make_job: MakeJob, text: str, solids: dict[str, Solid], name: str, load_n: float = 5.0, gripping: Sequence[str] = ()
) -> list[LoadCase]:
    """Return what other parts pass on to one of them; all stand as drawn, and a cord drives some."""
    job: Job = make_job('[job]\nname = "x"\nmaterial = "petg"\n' + text, **solids)
    surveys = {one: survey(solid) for one, solid in solids.items()}
    claims, frames = claims_of(job, surveys).claims, dict.fromkeys(solids, STILL)

    def held(copy: str) -> tuple[Support, ...]:
        return supports_of(job, copy, solids, surveys, claims, frames)

    others = loads_on_others(job, surveys, claims, frames, held, gripping, (), load_n)
    return list(others.passed_to(name, held(name)))


def _wrench(loads: Sequence[PartLoad], about: tuple[float, float, float]) -> tuple[list[float], list[float]]:
    """Return force in N and moment in N mm about a point."""
    force = np.sum([one.force_n for one in loads], axis=0)
    moments = [np.cross(np.subtract(one.at_mm, about), one.force_n) + one.couple_n_mm for one in loads]
    return force.tolist(), np.sum(moments, axis=0).tolist()


def _on_a_peg() -> dict[str, Solid]:
    """Return a plate on two screws with a peg of 6 mm, on which an arm of 100 mm turns, 20 mm up."""
    base = Manifold.cube((80, 40, 6), True).translate((0, 0, 3)) + cylinder(6.0, 26.0, 48).translate((0, 0, 6))
    for x in (-30, 30):
        base -= cylinder(4.4, 20.0, 48).translate((x, 0, -5))
    arm = Manifold.cube((108, 14, 8)).translate((-6, -7, 16)) - cylinder(6.6, 60.0, 48).translate((0, 0, -5))
    return {"base": solid_of(base, "base"), "arm": solid_of(arm, "arm")}


@pytest.mark.parametrize(
    ("way", "moment"),
    [("[0.0, 0.0, -1.0]", [0.0, 500.0, 0.0]), ("[0.0, 1.0, 0.0]", [-70.0, 0.0, 0.0])],
)
def test_a_load_on_an_arm_bends_the_peg_that_it_turns_on(make_job: MakeJob, way: str, moment: list[float]) -> None:
    """5 N, 100 mm out and 14 mm above the root: down, 500 N mm; along the swing only what does not swing it, 70 N mm."""
    text = PART.format("base") + PART.format("arm") + PLACED + f"load_dir = {way}\n" + TURNS
    text += SCREW.format("mount", ["base"], 4.4)
    (case,) = _cases(make_job, text.replace("'", '"'), _on_a_peg(), "base")
    force, turn = _wrench(case.pushes, (0.0, 0.0, 6.0))

    assert case.asks == ""
    assert force == pytest.approx([5.0 * float(v) for v in way.strip("[]").split(",")], abs=1e-6)
    assert turn == pytest.approx(moment, abs=1e-3)
    assert {one.over for one in case.answers} == {"b1", "b2"}


def test_a_way_that_nobody_states_is_asked_and_what_nothing_joins_takes_nothing(make_job: MakeJob) -> None:
    """A bracket on two screws: every way across the arm may be; a plate that no hardware joins is not pressed."""
    plate = Manifold.cube((60, 30, 6), True).translate((0, 0, 3))
    arm = Manifold.cube((120, 30, 6), True).translate((40, 0, 9))
    for x in (-10, 10):
        plate, arm = (body - cylinder(4.4, 40.0, 48).translate((x, 0, -5)) for body in (plate, arm))
    plate -= cylinder(5.4, 40.0, 48).translate((25, 10, -5)) + cylinder(5.4, 40.0, 48).translate((25, -10, -5))
    solids = {"base": solid_of(plate, "base"), "arm": solid_of(arm, "arm"), "far": solid_of(plate, "far")}
    text = PART.format("base") + PART.format("far") + PART.format("arm") + PLACED
    text += SCREW.format("join", ["base", "arm"], 4.4).replace("sliding", "sliding") + SCREW.format(
        "wall", ["base"], 5.4
    )
    on_base, on_far = (_cases(make_job, text.replace("'", '"'), solids, name) for name in ("base", "far"))

    assert len(on_base) == 4
    assert all("Which way does the load act on arm" in case.asks for case in on_base)
    assert max(np.linalg.norm(_wrench(case.pushes, (0.0, 0.0, 6.0))[1]) for case in on_base) >= 500.0
    assert on_far == []


def test_a_load_that_nobody_placed_acts_at_the_far_end_of_what_reaches_farthest(make_job: MakeJob) -> None:
    """Then the longest arm about the joint is taken, in the way that the contract has where none is stated."""
    text = PART.format("base") + PART.format("arm") + TURNS + SCREW.format("mount", ["base"], 4.4)
    cases = _cases(make_job, text.replace("'", '"'), _on_a_peg(), "base")

    assert cases
    assert all("far end of arm" in case.said and "Where and which way" in case.asks for case in cases)


def test_beside_a_cord_loads_that_somebody_placed_are_passed_on_alone(make_job: MakeJob) -> None:
    """The load acts at the tip then, or where it is stated, 500 N mm at the peg's root; not at the far end of each part."""
    text = PART.format("base") + PART.format("arm") + TURNS + SCREW.format("mount", ["base"], 4.4)
    placed = text.replace(PART.format("arm"), PART.format("arm") + PLACED + "load_dir = [0.0, 0.0, -1.0]\n")

    assert _cases(make_job, text.replace("'", '"'), _on_a_peg(), "base", gripping=["jaw"]) == []
    (case,) = _cases(make_job, placed.replace("'", '"'), _on_a_peg(), "base", gripping=["jaw"])
    assert _wrench(case.pushes, (0.0, 0.0, 6.0))[1] == pytest.approx([0.0, 500.0, 0.0], abs=1e-3)


def test_a_printed_pin_takes_the_moment_of_the_arm_that_it_carries(make_job: MakeJob) -> None:
    """A pin of 6 mm in a plate and an arm, 5 N down 100 mm out: 500 N mm go from the arm's bore to the plate's."""
    base = Manifold.cube((80, 40, 10), True).translate((0, 0, 5)) - cylinder(6.1, 60.0, 48).translate((0, 0, -5))
    arm = Manifold.cube((108, 14, 8)).translate((-6, -7, 16)) - cylinder(6.6, 60.0, 48).translate((0, 0, -5))
    pin = cylinder(6.0, 24.0, 48)
    solids = {name: solid_of(body, name) for name, body in (("base", base), ("arm", arm), ("pin", pin))}
    text = PART.format("base") + PART.format("arm") + PLACED + "load_dir = [0.0, 0.0, -1.0]\n"
    text += PART.format("pin").replace('"load"', '"pin"')
    text += (
        '[[hardware]]\nname = "axle"\nkind = "dowel-pin"\ndiameter_mm = 6.0\njoins = ["base", "arm"]\nbore_mm = 6.1\n'
        'fit = "held"\nprinted = "pin"\nother_bores = [{part = "arm", bore_mm = 6.6, fit = "turning"}]\n'
    )
    (case,) = _cases(make_job, text, solids, "pin")
    force, turn = _wrench(case.pushes, (0.0, 0.0, 10.0))

    assert force == pytest.approx([0.0, 0.0, -5.0], abs=1e-6)
    assert turn == pytest.approx([0.0, 500.0, 0.0], abs=1e-3)
    assert [one.over for one in case.answers] == ["base"]
    assert case.ways
