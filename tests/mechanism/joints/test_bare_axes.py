"""A joint that is stated to turn where no pin is named: bores of both, a printed peg in a bore, or a bearing."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.mechanism import STILL, Mechanism, mechanism_of, move_rules, movement_of
from planner.mechanism.joints.bare_axes import bare_axes
from planner.mechanism.judging.move_peg import MovePeg
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "base"\nmesh = "base.stl"\n[[part]]\nname = "arm"\n'
    'mesh = "arm.stl"\n[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\n'
)


@pytest.mark.parametrize(("more", "told"), [((), ""), ((12.0,), "they share 2 axes"), (None, "no bores of both")])
def test_the_one_axis_of_bores_of_both_is_the_joints(
    make_job: MakeJob, more: tuple[float, ...] | None, told: str
) -> None:
    """One bore of each on one axis: the axis is drawn and the turn is stated. On two axes, or on none, it is not told."""
    base, arm = (Manifold.cube((40, 12, 5)).translate((-8, -6, z)) for z in (0.0, 5.4))
    for x in (0.0, *(more or ())):
        base -= cylinder(5.4, 30, 48).translate((x, 0, -5))
        arm -= cylinder(5.4, 30, 48).translate((x if more is not None else 20.0, 0, -5))
    solids = {"base": solid_of(base, "base"), "arm": solid_of(arm, "arm")}
    job, surveys = make_job(TEXT, **solids), {name: survey(solid) for name, solid in solids.items()}
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)

    assert found is not None
    if told:
        assert told in found.unsolved[0]
    else:
        (joint,) = found.joints
        assert joint.axis == pytest.approx((0.0, 0.0, 1.0), abs=1e-6)
        assert joint.at_mm[:2] == pytest.approx((0.0, 0.0), abs=1e-3)
        assert joint.bores == (("base", "b1"), ("arm", "b1"))


@pytest.mark.parametrize(("up_mm", "axes_n"), [(5.4, 1), (14.0, 1), (100.0, 0)])
def test_no_pin_reaches_from_a_bore_to_one_far_along_its_axis(up_mm: float, axes_n: int) -> None:
    """Two plates of 5 mm: over a gap of 9 mm, less air than 10 mm of bores, a pin may go; 95 mm apart they share none.

    A go for a turn that meets nothing, since the other part stands a hand's width away, would rest on a wrong place.
    """
    bore = cylinder(5.4, 300, 48).translate((0, 0, -5))
    plates = {
        name: solid_of(Manifold.cube((40, 12, 5)).translate((-8, -6, z)) - bore, name)
        for name, z in (("base", 0.0), ("arm", up_mm))
    }
    surveys = {name: survey(solid) for name, solid in plates.items()}

    assert len(bare_axes(("base", "arm"), surveys, dict.fromkeys(plates, STILL))) == axes_n


def _peg(make_job: MakeJob, peg: Manifold, tilt: tuple[float, float, float]):  # type: ignore[no-untyped-def]
    """Return job and movement of an arm whose peg stands in a bore of 6.6 mm of a base, both turned alike."""
    base = Manifold.cube((40, 20, 6)).translate((-10, -10, 0)) - cylinder(6.6, 30, 64).translate((0, 0, -5))
    arm = Manifold.cube((40, 8, 5)).translate((-4, -4, 6.4)) + peg
    solids = {name: solid_of(body.rotate(tilt), name) for name, body in (("base", base), ("arm", arm))}
    job, surveys = make_job(TEXT, **solids), {name: survey(solid) for name, solid in solids.items()}
    return job, movement_of(
        job, solids, surveys, claims_of(job, surveys).claims, dict.fromkeys(solids, (0.0, 0.0, -1.0))
    )


@pytest.mark.parametrize("tilt", [(0.0, 0.0, 0.0), (90.0, 0.0, 0.0), (31.0, -57.0, 12.0)])
def test_a_round_peg_in_a_bore_is_an_axis_along_any_direction(
    make_job: MakeJob, tilt: tuple[float, float, float]
) -> None:
    """A peg of 6 mm that is drawn into the bore: the joint turns about it, and its play is judged as a rule of its own."""
    job, moving = _peg(make_job, cylinder(6.0, 8, 64), tilt)
    (joint,) = moving.mechanism.joints
    upright = Manifold.cube((1, 1, 1)).translate((-0.5, -0.5, 50)).rotate(tilt).bounding_box()

    assert joint.peg_mm == pytest.approx(6.0, abs=0.01)
    middle = [(low + high) / 2 for low, high in zip(upright[:3], upright[3:], strict=True)]
    assert [abs(v) for v in joint.axis] == pytest.approx([abs(v) / 50.5 for v in middle], abs=1e-3)
    (rule,) = (rule for rule in move_rules(job, moving) if isinstance(rule, MovePeg))
    off = job.printer.undersize.upright_mm if tilt[0] == 0.0 else job.printer.undersize.lying_mm
    assert rule.at(1.0).measured == pytest.approx(6.6 - 6.0 - off.value, abs=0.02)


@pytest.mark.parametrize("sides", [4, 0])
def test_a_square_peg_or_none_is_no_axis(make_job: MakeJob, sides: int) -> None:
    """A square of 4.6 mm fills half of the bore, and does not turn as a round one; beside the bore there is none."""
    peg = (
        Manifold.cube((4.6, 4.6, 8)).translate((-2.3, -2.3, 0)) if sides else cylinder(6.0, 8, 64).translate((20, 0, 7))
    )
    _, moving = _peg(make_job, peg, (0.0, 0.0, 0.0))

    assert "no round peg of one" in moving.mechanism.unsolved[0]


BEARING = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
    + "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in ("block", "wheel"))
    + '[[hardware]]\nname = "608"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.1\nfit = "held"\n'
    'joins = ["block"]\ncount = {count}\n'
)


def _in_bearing(
    make_job: MakeJob,
    *,
    shaft_mm: float = 7.9,
    aside_mm: float = 0.0,
    second_at_mm: float | None = None,
    more: str = "",
) -> Mechanism | None:
    """Return a block with a bearing's seat, or with two, and a wheel with a shaft drawn through."""
    block = Manifold.cube((80, 30, 20)).translate((-20, -15, 0)) - cylinder(22.1, 7.0, 96) - cylinder(12.0, 60.0, 64)
    if second_at_mm is not None:
        block -= cylinder(22.1, 7.0, 96).translate((second_at_mm, 0, 13.0)) - cylinder(0.1, 1.0, 8).translate(
            (0, 99, 0)
        )
    wheel = cylinder(shaft_mm, 40.0, 64).translate((0, 0, -15)) + cylinder(50.0, 5.0, 64).translate((0, 0, -15))
    solids = {"block": solid_of(block), "wheel": solid_of(wheel.translate((aside_mm, 0, 0)))}
    job = make_job(BEARING.format(count=1 if second_at_mm is None else 2) + more, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)


@pytest.mark.parametrize("second_at_mm", [None, 0.0])
@pytest.mark.parametrize("more", ["", '[[joint]]\nbetween = ["block", "wheel"]\nhow = "turns"\n'])
def test_a_shaft_in_a_bearing_turns_about_it(make_job: MakeJob, second_at_mm: float | None, more: str) -> None:
    """One bearing or two on one line, stated or not: one joint about z through the origin, and both have their place."""
    found = _in_bearing(make_job, second_at_mm=second_at_mm, more=more)

    assert found is not None
    assert set(found.frames) == {"block", "wheel"}
    (joint,) = found.joints
    assert (joint.kind, joint.parts) == ("turns", ("block", "wheel"))
    assert abs(joint.axis[2]) == pytest.approx(1.0)
    assert joint.at_mm[:2] == pytest.approx((0.0, 0.0), abs=1e-6)


@pytest.mark.parametrize(("shaft_mm", "aside_mm"), [(5.0, 0.0), (11.0, 0.0), (7.9, 60.0)])
def test_what_is_no_shaft_of_the_bearing_does_not_turn_in_it(
    make_job: MakeJob, shaft_mm: float, aside_mm: float
) -> None:
    """Far thinner than its bore, thicker than it, or drawn elsewhere."""
    assert _in_bearing(make_job, shaft_mm=shaft_mm, aside_mm=aside_mm) is None


def test_a_shaft_that_is_said_to_be_fast_does_not_turn(make_job: MakeJob) -> None:
    """What the job says of two parts comes first."""
    assert _in_bearing(make_job, more='[[joint]]\nbetween = ["block", "wheel"]\nhow = "glued"\n') is None
