"""Slots, poses and extents of known solids."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.survey import circle_mm, hull_points, largest_factor, shadow_mm, survey
from planner.survey.openings.slots import slots_of
from planner.survey.stable_poses import poses_of
from sample_parts.arm_group import cuff
from sample_parts.solids import slot_outline
from tests.shapes import Manifold, cuboid, cylinder, solid_of


def test_round_and_square_slots_are_found_once() -> None:
    """Two openings of 26 x 4 mm, one with round ends, give two slots."""
    plate = Manifold.cube((80, 50, 3), True)
    plate -= Manifold.extrude(slot_outline(26, 4, 16), 10).translate((0, 10, -5))
    plate -= Manifold.cube((26, 4, 10), True).translate((0, -10, 0))
    slots = slots_of(solid_of(plate.rotate((20, 30, 40))))

    assert [(s.width_mm, s.length_mm) for s in slots] == [
        pytest.approx((4.0, 26.0), abs=0.01),
        pytest.approx((4.0, 26.0), abs=0.01),
    ]


def test_the_slots_of_a_curved_shell_are_found() -> None:
    """The cuff has four strap slots of 26 mm in its curved wall."""
    lengths = [slot.length_mm for slot in slots_of(solid_of(cuff()))]

    assert lengths == pytest.approx([26.0] * 4, abs=0.05)


def test_a_pocket_an_open_groove_and_a_bore_are_no_slots() -> None:
    """Only what goes through and is closed at both ends is a slot."""
    pocket = Manifold.cube((40, 30, 10)) - Manifold.cube((26, 4, 8)).translate((5, 10, 5))
    groove = Manifold.cube((40, 30, 10)) - Manifold.cube((50, 4, 8)).translate((-5, 10, 5))
    bored = Manifold.cube((40, 30, 10), True) - cylinder(5, 30, 16).translate((0, 0, -15))

    assert [slots_of(solid_of(body)) for body in (pocket, groove, bored)] == [(), (), ()]


def test_a_cuboid_stands_on_six_faces() -> None:
    """Six poses, the largest contact first; it tips at atan(half side / half height) (geometry)."""
    poses = poses_of(cuboid(20, 30, 40))

    assert len(poses) == 6
    assert poses[0].contact_mm2 == pytest.approx(1200.0)
    assert poses[0].height_mm == pytest.approx(20.0)
    assert poses[0].tip_deg == pytest.approx(math.degrees(math.atan(15 / 10)), abs=0.1)
    assert all(pose.overhang_mm2 == 0.0 for pose in poses)


def test_a_table_overhangs_under_its_top() -> None:
    """Standing on its foot a T has its top's underside over air, 2 x 18 x 20 mm2; on its top nothing."""
    body = Manifold.cube((4, 20, 20)).translate((18, 0, 0)) + Manifold.cube((40, 20, 4)).translate((0, 0, 20))
    poses = {tuple(round(v) for v in pose.down): pose for pose in poses_of(solid_of(body))}

    assert poses[(0, 0, 1)].overhang_mm2 == 0.0
    assert poses[(0, 0, 1)].contact_mm2 == pytest.approx(800.0)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10_000), width=st.floats(20, 200), depth=st.floats(20, 200))
def test_the_largest_scale_on_a_bed_is_exact(seed: int, width: float, depth: float) -> None:
    """No turn of a fine sweep fits larger than the closed form, and the closed form is reached within 0.1 %."""
    rng = np.random.default_rng(seed)
    points = rng.normal(size=(int(rng.integers(3, 30)), 3)) * [*rng.uniform(1, 50, 2), 5]
    outline, _ = shadow_mm(hull_points(points), (0.0, 0.0, -1.0))
    factor, _ = largest_factor(outline, width, depth)
    angles = np.radians(np.arange(0, 180, 0.1))
    x = outline[:, :1] * np.cos(angles) - outline[:, 1:] * np.sin(angles)
    y = outline[:, :1] * np.sin(angles) + outline[:, 1:] * np.cos(angles)
    swept = np.minimum(width / np.ptp(x, axis=0), depth / np.ptp(y, axis=0)).max()

    assert swept <= factor + 1e-9
    assert factor <= swept * 1.002


def test_an_octagon_fits_a_smaller_square_when_turned() -> None:
    """A regular octagon of circumradius R needs 2 R cos(pi/8) flat (geometry); its circle is 2 R."""
    angle = np.arange(8) * np.pi / 4
    outline = np.column_stack([np.cos(angle), np.sin(angle)]) * 100
    factor, _ = largest_factor(outline, 184.7759, 184.7759)

    assert factor == pytest.approx(1.0, abs=1e-6)
    assert circle_mm(outline) == pytest.approx(200.0)


def test_the_tray_of_others_fits_the_square_that_was_measured() -> None:
    """Outside check: an octagon 355.6 across needs a square of side 355.6 x cos(22.5) / cos(0 or 22.5) (geometry)."""
    angle = np.arange(8) * np.pi / 4 + np.pi / 8
    outline = np.column_stack([np.cos(angle), np.sin(angle)]) * 355.6 / 2 / math.cos(math.pi / 8)

    assert 1.0 / largest_factor(outline, 1.0, 1.0)[0] == pytest.approx(355.6, rel=1e-6)


def test_topology_counts_what_the_survey_missed() -> None:
    """A square opening is no bore and no slot: the genus of the mesh says that one more goes through (Euler, Poincare)."""
    body = Manifold.cube((40, 30, 5)) - cylinder(6, 20, 48).translate((10, 15, -5))
    whole, holed = survey(solid_of(body)), survey(solid_of(body - Manifold.cube((8, 8, 20)).translate((24, 11, -5))))
    hollow = survey(solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((8, 8, 8)).translate((6, 6, 6))))

    assert (whole.handles_n, whole.unrecognised_n) == (1, 0)
    assert (holed.handles_n, holed.unrecognised_n) == (2, 1)
    assert (hollow.handles_n, hollow.unrecognised_n) == (0, 0)
