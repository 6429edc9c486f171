"""What is drawn between two faces of another part is found with its room; what merely lies beside it is not."""

from __future__ import annotations

import pytest
from manifold3d import CrossSection, Manifold

from planner.assembly import CloseFit, close_fits
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

TEXT = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\n' for n in "ab")
BLOCK = Manifold.cube((40.0, 30.0, 12.0), True)


def _fits(make_job: MakeJob, a: Manifold, b: Manifold) -> list[CloseFit]:
    solids = {"a": solid_of(a, "a"), "b": solid_of(b, "b")}
    return list(close_fits(make_job(TEXT, **solids), solids, {name: survey(one) for name, one in solids.items()}))


@pytest.mark.parametrize("turned", [0.0, 27.0])
@pytest.mark.parametrize("room_mm", [0.3, 0.1, -0.1])
def test_a_square_tenon_has_its_room_both_ways(make_job: MakeJob, room_mm: float, turned: float) -> None:
    """A tenon of 6 x 8 mm in a mortise wider by the room, or narrower as for a press fit; however both are turned."""
    tenon = Manifold.cube((30.0, 30.0, 6.0), True).translate((0, 0, -9.2)) + Manifold.cube((6.0, 8.0, 20.0), True)
    mortise = BLOCK - Manifold.cube((6.0 + room_mm, 8.0 + room_mm, 30.0), True)
    found = _fits(make_job, tenon.rotate((turned, 0, turned)), mortise.rotate((turned, 0, turned)))

    assert sorted((one.inner, round(one.width_mm, 2)) for one in found) == [("a", 6.0), ("a", 8.0)]
    assert [one.room_mm for one in found] == pytest.approx([room_mm] * 2, abs=1e-3)
    assert not any(one.sloped for one in found)


def test_a_dovetail_is_held_between_its_flanks(make_job: MakeJob) -> None:
    """Flanks at 60 degrees, 0.1 mm off square to them: across it that is 2 x 0.1 / sin 60 = 0.231 mm."""
    shape = CrossSection([[(-5.0, 0.0), (5.0, 0.0), (8.0, 5.196), (-8.0, 5.196)]])
    wider = CrossSection([[(-5.1155, 0.0), (5.1155, 0.0), (8.1155, 5.196), (-8.1155, 5.196)]])
    tongue = shape.extrude(30.0) + Manifold.cube((30.0, 6.0, 30.0)).translate((-15.0, -6.0, 0.0))
    socket = Manifold.cube((30.0, 12.0, 30.0)).translate((-15.0, 0.05, 0.0)) - wider.extrude(32.0).translate((0, 0, -1))
    (found,) = _fits(make_job, tongue, socket - Manifold.cube((17.0, 0.3, 30.0)).translate((-8.5, 5.0, 0.0)))

    assert (found.inner, found.outer, found.sloped) == ("a", "b", True)
    assert found.room_mm == pytest.approx(0.231, abs=2e-3)


@pytest.mark.parametrize(
    "other",
    [
        BLOCK.translate((0, 0, 12.2)),
        Manifold.cube((60.0, 50.0, 30.0), True) - Manifold.cube((42.0, 32.0, 40.0), True),
        BLOCK.rotate((0, 0, 20.0)),
    ],
    ids=["stacked", "wide frame", "drawn about one origin"],
)
def test_what_only_lies_beside_another_part_is_not_between(make_job: MakeJob, other: Manifold) -> None:
    """A stacked plate, a frame with 1 mm on every side, and a part that overlaps because it has the same origin."""
    assert _fits(make_job, BLOCK, other) == []


def test_round_pegs_are_left_to_their_own_rule(make_job: MakeJob) -> None:
    """A pin of 24 facets in a bore of 24: facets face each other there, and it is no tenon."""
    assert _fits(make_job, cylinder(20.0, 20.0, 24), BLOCK - cylinder(20.4, 40.0, 24).translate((0, 0, -20))) == []
