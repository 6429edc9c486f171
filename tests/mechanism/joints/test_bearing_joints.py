"""A shaft that is drawn in a bearing stands there, and turns in what the bearing is pressed into."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.mechanism import Mechanism, mechanism_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
    + "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in ("block", "wheel"))
    + '[[hardware]]\nname = "608"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.1\nfit = "held"\n'
    'joins = ["block"]\ncount = {count}\n'
)


def _device(
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
    job = make_job(TEXT.format(count=1 if second_at_mm is None else 2) + more, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)


@pytest.mark.parametrize("second_at_mm", [None, 0.0])
@pytest.mark.parametrize("more", ["", '[[joint]]\nbetween = ["block", "wheel"]\nhow = "turns"\n'])
def test_a_shaft_in_a_bearing_turns_about_it(make_job: MakeJob, second_at_mm: float | None, more: str) -> None:
    """One bearing or two on one line, stated or not: one joint about z through the origin, and both have their place."""
    found = _device(make_job, second_at_mm=second_at_mm, more=more)

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
    assert _device(make_job, shaft_mm=shaft_mm, aside_mm=aside_mm) is None


def test_a_shaft_that_is_said_to_be_fast_does_not_turn(make_job: MakeJob) -> None:
    """What the job says of two parts comes first."""
    assert _device(make_job, more='[[joint]]\nbetween = ["block", "wheel"]\nhow = "glued"\n') is None
