"""Stable poses: the faces on which a solid stands, and what hangs over them."""

from __future__ import annotations

import math

import pytest

from planner.survey.stable_poses import poses_of
from tests.shapes import Manifold, cuboid, solid_of


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
