"""Bores on their pins as they will be."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import HandWork
from planner.mechanism.play.face_room import FaceRoom
from planner.mechanism.play.pin_sleeves import gaps_mm, pin_play, play_mm, sleeves_of
from tests.mechanism.cord_effects.one_jaw import one_jaw


def test_play_is_the_printed_bore_less_the_pin_and_a_tight_one_is_drilled(tmp_path: Path) -> None:
    """Upright bores print smaller by the printer's range; at 80 % they are drilled to 5.2 mm; stated work is done first."""
    device = one_jaw(tmp_path)
    claim, down = device.claims[0], (0.0, 0.0, -1.0)
    off = device.job.printer.undersize.upright_mm

    assert play_mm(device.job, claim, down, 1.1) == pytest.approx(
        [5.6 * 1.1 - 5.0 - value for value in (off.high, off.value, off.low)]
    )
    assert play_mm(device.job, claim, down, 0.8) == pytest.approx([0.2, 0.2, 0.2])
    wide = replace(device.job, works=(HandWork(part=claim.part, kind="drill", to_mm=7.0, bores=("b1",)),))
    assert play_mm(wide, claim, down, 1.0) == pytest.approx([2.0, 2.0, 2.0])


def test_each_part_on_the_pin_is_a_sleeve_as_long_as_its_bores(tmp_path: Path) -> None:
    """At 150 % both guide the pin along 7.5 mm, one above the other."""
    device = one_jaw(tmp_path)
    joint = device.mechanism.joints[0]
    found = sleeves_of(device.job, joint, device.mechanism.frames, device.claims, {}, 1.5)

    assert sorted(sleeve.at_mm[2] for sleeve in found) == pytest.approx([3.75, 11.25])
    assert [sleeve.long_mm for sleeve in found] == pytest.approx([7.5, 7.5])


def test_gaps_between_faces_vary_as_much_as_printed_bores_do(tmp_path: Path) -> None:
    """Upright undersize goes from 0.1 to 0.3 mm, so 0.05 mm of drawn gap prints as 0 to 0.15 mm; it grows with the size."""
    device = one_jaw(tmp_path)
    joint, frames = device.mechanism.joints[0], device.mechanism.frames
    down = (0.0, 0.0, -1.0)
    off = device.job.printer.undersize.upright_mm
    room = FaceRoom(float_mm=0.4, tilt_rad=0.05)

    assert gaps_mm(device.job, (0.0, 0.0, 1.0), down, 0.05) == pytest.approx((0.0, 0.05, 0.15))
    play = pin_play(
        device.job, joint, device.surveys, frames, device.claims, dict.fromkeys(device.solids, down), 1.5, room
    )
    assert play.float_mm == pytest.approx((0.6 - off.high + off.value, 0.6, 0.6 + off.value - off.low))
    assert play.tilt_rad == 0.05
