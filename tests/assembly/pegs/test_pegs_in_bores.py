"""A peg is held against the bores of other parts: those that it is drawn in first, then those of its size."""

from __future__ import annotations

from dataclasses import replace

import pytest
from manifold3d import Manifold

from planner.assembly import pegs_in_bores
from planner.assembly.doubts.bore_doubts import answered
from planner.assembly.doubts.mates.peg_answers import peg_answers
from planner.job import Job, Joint, LeftOpen
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

TEXT = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\n' for n in "ab")


def _device(make_job: MakeJob, bore_mm: float, off_mm: float = 0.0) -> tuple[Job, dict[str, Survey]]:
    """Return a plate with a peg of 8 mm and a lever with a bore, ``off_mm`` beside where the peg stands."""
    plate = solid_of(Manifold.cube((40, 20, 4), True) + cylinder(8.0, 12.0, 64), "a")
    lever = Manifold.cube((30, 16, 5), True).translate((0, 0, 7)) - cylinder(bore_mm, 20.0, 64)
    other = solid_of(lever.translate((0, off_mm, 0)), "b")
    return make_job(TEXT, a=plate, b=other), {"a": survey(plate), "b": survey(other)}


@pytest.mark.parametrize(("off_mm", "in_place"), [(0.0, True), (40.0, False)])
def test_a_peg_finds_its_bore_in_place_and_by_size(make_job: MakeJob, off_mm: float, *, in_place: bool) -> None:
    """Drawn on one axis it lies in the bore; drawn beside it only its size tells."""
    job, surveys = _device(make_job, 8.2, off_mm)
    ((key, found),) = pegs_in_bores(job, surveys, ()).items()

    assert key == ("b", "b1")
    assert (found.peg_part, found.peg.id, found.in_place, found.how) == ("a", "p1", in_place, None)


@pytest.mark.parametrize(("bore_mm", "n"), [(7.6, 0), (7.9, 1), (8.5, 1), (9.5, 0)])
def test_only_a_bore_of_its_size_is_a_pegs(make_job: MakeJob, bore_mm: float, n: int) -> None:
    """A press fit is a little narrower, a running one a little wider; more is another bore."""
    assert len(pegs_in_bores(*_device(make_job, bore_mm), ())) == n


def test_the_pocket_of_a_nut_is_no_bore_for_a_shaft_of_its_size(make_job: MakeJob) -> None:
    """ISO 4032: an M3 nut is 5.5 mm across its flats, 6.35 across its corners; a shaft of 5.8 elsewhere is no matter."""
    plate = Manifold.cube((40, 20, 6), True) - cylinder(3.4, 20.0, 64)
    pocket = Manifold.cylinder(9.0, 5.5 / 3**0.5, 5.5 / 3**0.5, 6).translate((0, 0, 0.4))
    shaft = solid_of(cylinder(12.0, 4.0, 64).translate((90, 0, 0)) + cylinder(5.8, 20.0, 64).translate((90, 0, 0)), "a")
    nut = solid_of(plate - pocket, "b")
    job, surveys = make_job(TEXT, a=shaft, b=nut), {"a": survey(shaft), "b": survey(nut)}

    assert [bore.facets_n for bore in surveys["b"].possible_bores] == [6]
    assert pegs_in_bores(job, surveys, ()) == {}


def test_what_is_spoken_for_or_left_open_is_no_pegs(make_job: MakeJob) -> None:
    """A claimed bore, one listed as open, and what a joint says of the two parts."""
    job, surveys = _device(make_job, 8.2)
    joined = replace(job, joints=(Joint(between=("a", "b"), how="turns"),))

    assert pegs_in_bores(job, surveys, {("b", "b1")}) == {}
    assert pegs_in_bores(replace(job, left_open=(LeftOpen(name="w", parts=("b",), bore_mm=8.2),)), surveys, ()) == {}
    assert pegs_in_bores(joined, surveys, ())["b", "b1"].how == "turns"


def test_two_pegs_between_two_parts_hold_them_fast(make_job: MakeJob) -> None:
    """A lid on two pegs does not turn on either."""
    pegs = [cylinder(6.0, 12.0, 64).translate((x, 0, 0)) for x in (-12, 12)]
    holes = [cylinder(6.3, 20.0, 64).translate((x, 0, 0)) for x in (-12, 12)]
    plate = solid_of(Manifold.cube((40, 20, 4), True) + pegs[0] + pegs[1], "a")
    lid = solid_of(Manifold.cube((40, 20, 5), True).translate((0, 0, 7)) - holes[0] - holes[1], "b")
    found = pegs_in_bores(make_job(TEXT, a=plate, b=lid), {"a": survey(plate), "b": survey(lid)}, ())

    assert [one.fast for one in found.values()] == [True, True]
    assert [answer.name for answer in peg_answers(list(found.values()))] == ["a-peg-fixed"]


@pytest.mark.parametrize(("flat_mm", "tighter_mm"), [(2.05, 0.0), (2.0, 0.05), (1.9, 0.15)])
def test_a_shaft_with_a_flat_in_a_bore_with_one(make_job: MakeJob, flat_mm: float, tighter_mm: float) -> None:
    """Of 6.0 in 6.1 mm; the shaft's flat stands 2.0 mm off, the bore's 2.05: as much room as round it, 2.0: 0.05 less.

    A facet of 2.8 degrees moves either flat by 0.03 mm at most, as it is told from how far the round reaches.
    """

    def flat(diameter_mm: float, off_mm: float) -> Manifold:
        return cylinder(diameter_mm, 30.0, 256) - Manifold.cube((20, 20, 90), True).translate((off_mm + 10.0, 0, 0))

    knob = solid_of(cylinder(25.0, 8.0, 96).translate((0, 0, 5)) - flat(6.1, flat_mm), "b")
    shaft = solid_of(flat(6.0, 2.0), "a")
    (found,) = pegs_in_bores(make_job(TEXT, a=shaft, b=knob), {"a": survey(shaft), "b": survey(knob)}, ()).values()

    assert (found.part, found.in_place, found.fast) == ("b", True, True)
    assert found.tighter_mm == pytest.approx(tighter_mm, abs=0.03)


@pytest.mark.parametrize(("flat_mm", "offered"), [(2.05, ["a-peg-fixed", "nothing"]), (None, [])])
def test_a_shaft_with_a_flat_finds_its_bore_wherever_it_is_drawn(
    make_job: MakeJob, flat_mm: float | None, offered: list[str]
) -> None:
    """A D shaft and a D bore, both saved in print pose, belong together; a round shaft is not for the D bore."""
    cut = Manifold.cube((20, 20, 90), True)
    knob = cylinder(25.0, 8.0, 64) - (cylinder(6.1, 30.0, 64) - cut.translate((12.05, 0, 0)))
    shaft = cylinder(6.0, 30.0, 64).translate((60, 0, 0))
    solids = {
        "a": solid_of(shaft if flat_mm is None else shaft - cut.translate((70.0 + flat_mm, 0, 0)), "a"),
        "b": solid_of(knob, "b"),
    }
    job, surveys = make_job(TEXT, **solids), {name: survey(solid) for name, solid in solids.items()}
    asked = [answers for group, answers in answered(job, surveys) if group.parts == ("b",)]

    assert [[answer.name for answer in answers] for answers in asked] == ([offered] if offered else [])


def test_a_neck_goes_into_no_bore_by_its_size_alone(make_job: MakeJob) -> None:
    """Between two balls of 16 mm: only where it is drawn there, or a joint is stated, as of a bore in two halves."""
    balls = [Manifold.sphere(8.0, 64).translate((0, 0, z)) for z in (0, 25)]
    rod = cylinder(8.0, 25.0, 64) + balls[0] + balls[1]
    plate = solid_of(
        Manifold.cube((40, 20, 4), True).translate((60, 0, 0)) - cylinder(8.4, 20.0, 64).translate((60, 0, -9)), "b"
    )
    job, surveys = make_job(TEXT, a=solid_of(rod, "a"), b=plate), {"a": survey(solid_of(rod, "a")), "b": survey(plate)}
    joined = replace(job, joints=(Joint(between=("a", "b"), how="turns"),))

    assert pegs_in_bores(job, surveys, ()) == {}
    assert list(pegs_in_bores(joined, surveys, ())) == [("b", "b1")]
