"""The tip of a device."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.mechanism.cord_effects.tip_moves import joint_play, rooms_of, tip_of
from planner.mechanism.play.face_room import FaceRoom
from tests.mechanism.cord_effects.one_jaw import one_jaw


def test_the_tip_wobbles_by_both_bores_on_the_pin(tmp_path: Path) -> None:
    """5 mm of jaw and 5 mm of plate on one pin: play over length times reach, for each; one finger has no spread."""
    device = one_jaw(tmp_path)
    strung = device.strung()
    tip = tip_of(device.job, device.surveys, device.claims, device.mechanism, strung, {}, 1.0, {})
    off = device.job.printer.undersize.lying_mm
    play = max(5.6 - off.low, 5.2) - 5.0

    assert tip is not None
    assert tip.wobble_mm is not None
    assert tip.wobble_mm[0] == pytest.approx(2 * play / 5.0 * 60.0, rel=0.02)
    assert tip.wobble_mm[1] <= tip.wobble_mm[0]
    assert tip.spread_mm is None
    assert tip.knot == ""
    assert list(rooms_of(device.job, device.solids, device.mechanism, strung)) == ["plate to jaw"]
    tight = {"plate to jaw": FaceRoom(float_mm=0.0, tilt_rad=0.01)}
    held = tip_of(device.job, device.surveys, device.claims, device.mechanism, strung, {}, 1.0, tight)
    assert held is not None
    assert held.wobble_mm is not None
    # the faces beside it end its tilt; both bores still let it go aside, by half their play each
    assert held.wobble_mm[0] == pytest.approx(math.hypot(60.0 * 0.01, play), rel=0.01)


def test_a_joints_own_play_is_told_at_the_farthest_point_of_its_part(tmp_path: Path) -> None:
    """The far corner of the jaw's hull, 64.6 mm away: both sleeves tilt it by play over length."""
    device = one_jaw(tmp_path)
    surveys = {**device.surveys, "jaw": replace(device.surveys["jaw"], hull_mm=device.solids["jaw"].vertices_mm)}
    known = (device.job, surveys, device.claims, device.mechanism)
    found = joint_play(*known, device.mechanism.joints[0], {}, 1.0)
    play = max(5.6 - device.job.printer.undersize.lying_mm.low, 5.2) - 5.0

    assert found is not None
    assert found.worst_mm == pytest.approx(2 * play / 5.0 * math.hypot(64.0, 5.0), rel=0.02)
    bare = replace(device.mechanism.joints[0], bores=())
    assert joint_play(*known, bare, {}, 1.0) is None
