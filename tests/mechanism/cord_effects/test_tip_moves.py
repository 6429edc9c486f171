"""The tip of a device."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.tip_moves import joint_play, rooms_of, tip_of
from planner.mechanism.play.face_room import FaceRoom
from tests.mechanism.cord_effects.one_jaw import one_jaw, two_jaws


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


def test_the_copy_that_grips_farther_out_decides_although_it_is_the_second(tmp_path: Path) -> None:
    """Two jaws on alike pins, one gripping at 20 mm, the other at 60: the tip wobbles as the far one does."""
    device = two_jaws(tmp_path)
    strung, found = device.strung(), {}
    for grips in (("jaw", 60.0, "jaw#2", 60.0), ("jaw", 20.0, "jaw#2", 60.0)):
        at = dict(zip(grips[::2], grips[1::2], strict=True))
        cords = {name: _gripping(one, at) for name, one in strung.items()}
        found[grips[1]] = tip_of(device.job, device.surveys, device.claims, device.mechanism, cords, {}, 1.0, {})

    assert found[60.0] is not None
    assert found[20.0] is not None
    assert found[20.0].wobble_mm == pytest.approx(found[60.0].wobble_mm)
    assert found[20.0].copy == "jaw#2"


def _gripping(one: StrungCord | str, at_mm: dict[str, float]) -> StrungCord | str:
    """Return a cord whose jaw grips so far from its pin."""
    if isinstance(one, str) or one.cord.kind == "elastic":
        return one
    return replace(one, cord=replace(one.cord, grip_at_mm=(at_mm[one.driven], 0.0, 2.5)))
