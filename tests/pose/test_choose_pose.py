"""Which way up: ten parts with an obvious best pose, each with the point that decides it."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from manifold3d import CrossSection

from planner.finding import Vec3
from planner.job import Bed, Part, read_material, read_pose_weights, read_printer, read_settings
from planner.mesh import Solid
from planner.pose import PoseChoice, choose_pose, load_term, share_that_turns, stressed_choice, uprightness
from planner.survey import survey
from sample_parts.solids import bar
from tests.shapes import Manifold, cylinder, solid_of

M = Manifold


def _chosen(solid: Solid, bed: Bed | None = None, stressed: Any = None, **about: Any) -> PoseChoice:
    """Choose the pose of a solid, printed in PETG on the bench printer."""
    return choose_pose(
        Part(name="p", mesh=Path("p.stl"), **about),
        survey(solid),
        solid,
        settings=read_settings("standard-0.4", Path()),
        printer=read_printer("bench-220", Path()),
        material=read_material("petg", Path()),
        bed=bed,
        stressed=stressed,
    )


def _pin() -> Manifold:
    """Return a pin of 6 x 40 with a flat along it."""
    return cylinder(6, 40, 64) - M.cube((20, 20, 100), True).translate((12.4, 0, 0))


def _hook() -> Manifold:
    """Return a flat hook: three quarters of a ring on a shank, 8 thick."""
    ring = CrossSection.circle(15, 64) - CrossSection.circle(10, 64) - CrossSection.square((40, 40))
    return M.extrude(ring + CrossSection.square((5, 40)).translate((-15, 0)), 8)


def _block() -> Manifold:
    """Return a cube with a 12 mm bore."""
    return M.cube((30, 30, 30)) - cylinder(12, 60, 64).translate((15, 15, -10))


def _cup() -> Manifold:
    """Return a cup that is open above."""
    return cylinder(40, 50, 96) - cylinder(36, 60, 96).translate((0, 0, 2))


def _bracket() -> Manifold:
    """Return an angle with a bored foot: its upright is loaded at the corner."""
    return M.cube((40, 20, 5)) + M.cube((5, 20, 30)) - cylinder(5, 20, 48).translate((28, 10, -5))


def _trough() -> Manifold:
    """Return a block with a wide groove below and a bore along it."""
    bored = M.cube((60, 20, 14)) - cylinder(6, 100, 48).rotate((0, 90, 0)).translate((-10, 10, 9))
    return bored - M.cube((50, 12, 4)).translate((5, 4, -1))


def _cover() -> Manifold:
    """Return a cover with two ribs on its inner side."""
    return M.cube((60, 40, 3)) + M.cube((56, 3, 10)).translate((2, 2, 0)) + M.cube((56, 3, 10)).translate((2, 35, 0))


def _link() -> Manifold:
    """Return a link with two bores."""
    body = M.extrude(bar([(0, 0), (50, 0)], [9, 9]), 6)
    return body - cylinder(5, 30, 48).translate((0, 0, -5)) - cylinder(5, 30, 48).translate((50, 0, -5))


def _tube() -> Manifold:
    """Return a short tube."""
    return cylinder(30, 35, 96) - cylinder(24, 60, 96).translate((0, 0, -5))


X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
BELOW = (0.0, 0.0, -1.0)
PARTS: list[tuple[str, Any, Callable[[], Manifold], Vec3, bool, str]] = [
    # name, duty, solid, axis, whether the axis stands upright in the best pose, the point that decides
    ("pin lies", "pin", _pin, Z, False, "holds to the bed"),
    ("hook lies flat", "load", _hook, Z, True, "no load crosses a narrow layer"),
    ("plate lies", "cover", lambda: M.cube((80, 50, 3)), Z, True, "holds to the bed"),
    ("bore stands", "cover", _block, Z, True, "bores stand upright"),
    ("cup opens upward", "cover", _cup, BELOW, True, "holds to the bed"),
    ("angle lies on its side", "load", _bracket, Y, True, "no load crosses a narrow layer"),
    ("tower lies", "load", lambda: M.cube((12, 12, 100)), Z, False, "no load crosses a narrow layer"),
    ("ribs upward", "cover", _cover, BELOW, True, "least support"),
    ("link lies", "load", _link, Z, True, "no load crosses a narrow layer"),
    ("tube stands", "cover", _tube, Z, True, "holds to the bed"),
    ("groove upward", "load", _trough, Z, True, "least support"),
]
DIRECTED = {"cup opens upward", "ribs upward"}


@pytest.mark.parametrize(("name", "duty", "make", "axis", "upright", "reason"), PARTS, ids=[p[0] for p in PARTS])
def test_the_obvious_pose_is_chosen_for_its_reason(
    name: str, duty: Any, make: Callable[[], Manifold], axis: Vec3, upright: bool, reason: str
) -> None:
    """Common practice, no source: a workshop would stand each of these only one way."""
    choice = _chosen(solid_of(make(), name), duty=duty)
    along = uprightness(axis, choice.down)

    assert along > 0.95 if upright else along < 0.3
    assert reason in choice.reason
    if name in DIRECTED:
        assert sum(a * d for a, d in zip(axis, choice.down, strict=True)) > 0.95
    if name == "groove upward":
        assert choice.down[2] > 0.95


def test_what_is_alike_all_ways_says_so() -> None:
    """A cube stands six ways, all the same."""
    choice = _chosen(solid_of(M.cube((20, 20, 20))), duty="cover")

    assert "alike" in choice.reason


def test_a_stated_pose_binds() -> None:
    """Whatever would be better."""
    choice = _chosen(solid_of(M.cube((80, 50, 3))), duty="load", pose=(1.0, 0.0, 0.0))

    assert choice.down == (1.0, 0.0, 0.0)
    assert not choice.terms


def test_a_part_stands_so_that_the_bed_holds_it() -> None:
    """A plate of 100 x 70 lies flat on a large bed; on one of 60 x 60, 120 high, it must stand on edge."""
    plate = solid_of(M.cube((100, 70, 3)))
    small = Bed(shape="rectangle", size_mm=(60.0, 60.0), height_mm=120.0, margin_mm=2.0)

    assert abs(_chosen(plate, duty="cover").down[2]) > 0.99
    assert abs(_chosen(plate, small, duty="cover").down[0]) > 0.99
    assert "that the bed holds" in _chosen(plate, small, duty="cover").reason


def test_the_skin_side_looks_up_where_it_is_told() -> None:
    """A plate with pegs on both faces hangs over either way: the side on skin looks away from the support."""
    pegs = M.cube((6, 6, 6)).translate((5, 5, 4)) + M.cube((6, 6, 6)).translate((45, 25, 4))
    both = M.cube((60, 40, 4)) + pegs + pegs.mirror((0, 0, 1)).translate((0, 0, 4))
    for toward in ((0.0, 0.0, 1.0), (0.0, 0.0, -1.0)):
        down = _chosen(solid_of(both), duty="cover", skin_side=True, skin_toward=toward).down

        assert sum(a * d for a, d in zip(toward, down, strict=True)) < 0.71


def test_a_wide_slot_does_not_lie_on_its_side() -> None:
    """A block with a slot of 30 x 4: standing upright its roof is bridged, flat it would fill with support."""
    slotted = M.cube((20, 44, 44)) - M.cube((40, 30, 4)).translate((-10, 7, 20))
    down = _chosen(solid_of(slotted), duty="cover").down

    assert abs(down[2]) < 0.1


def test_a_load_that_tears_the_layers_lays_a_part_another_way() -> None:
    """A cover as a cube with a bore: 20 of 25 MPa with z across its layers, 20 of 100 MPa with the bore on its side."""
    weights, cube = read_pose_weights(), _block()
    solid = solid_of(cube)
    plain = _chosen(solid, duty="cover")

    def told(down: Vec3) -> Any:
        return load_term(0.8 if abs(down[2]) > 0.9 else 0.2, 20.0, 0.5, weights)

    stressed = {pose.down: told(pose.down) for pose in survey(solid).poses}
    laid = _chosen(solid, stressed=stressed, duty="cover")
    mild = {down: load_term(0.01, 0.5, 0.5, weights) for down in stressed}
    kept = stressed_choice(plain, mild)

    assert abs(plain.down[2]) > 0.9
    assert abs(laid.down[2]) < 0.1
    assert laid.by_load
    assert laid.reason.startswith("its load tears its layers least (20.0 of the 100 MPa that break it laid so")
    assert stressed_choice(plain, stressed) is None
    assert kept is not None
    assert kept.terms[-1].told == "0.5 of the 50 MPa that break it laid so"


def test_the_share_that_turns_a_part_is_where_its_load_costs_as_much_as_stands_between_two_poses() -> None:
    """Just below it the choice stays, just above it is weighed again; a stated pose stays under any load."""
    solid, weights = solid_of(_block()), read_pose_weights()
    plain = _chosen(solid, duty="cover")
    turns = share_that_turns(plain, 0.5)

    def laid(share: float) -> PoseChoice | None:
        return stressed_choice(plain, {pose.down: load_term(share, 20.0, 0.5, weights) for pose in survey(solid).poses})

    assert laid(0.999 * turns) is not None
    assert laid(1.001 * turns) is None
    assert share_that_turns(_chosen(solid, pose=(0.0, 0.0, -1.0)), 0.5) == math.inf
