"""Ranges of 30 invented mechanisms against closed forms: what is planted is found, and nothing is where nothing is."""

from __future__ import annotations

import pytest

from planner.mechanism import Mechanism, Ranges, ranges_of
from tests.conftest import MakeJob
from tests.mechanism.invented import Device, devices

DEVICES = devices()
STOP_DEG = 0.1


def _ranges(make_job: MakeJob, device: Device, mechanism: Mechanism | None = None, **more: float) -> Ranges:
    """Return the ranges of a device."""
    job = make_job(device.job_text, **device.solids)
    return ranges_of(job, device.solids, mechanism or device.mechanism(), **more)


def test_there_are_thirty_and_half_of_them_stop() -> None:
    """30 mechanisms, a collision planted in 15."""
    assert len(DEVICES) == 30
    assert sum(device.planted for device in DEVICES) >= 15
    assert sum(all(end is None for free in device.ranges.values() for end in free) for device in DEVICES) >= 10


@pytest.mark.parametrize("device", DEVICES, ids=lambda device: device.name)
def test_ranges_are_those_of_the_closed_form(make_job: MakeJob, device: Device) -> None:
    """Every stop within 0.1 degrees or mm of the formula, and none where nothing stands in the way."""
    found = _ranges(make_job, device)

    for name, expected in device.ranges.items():
        for mine, right in zip(found.of(name).free_deg, expected, strict=True):
            assert (mine is None) == (right is None), found.of(name)
            assert mine is None or right is None or mine == pytest.approx(right, abs=STOP_DEG)
