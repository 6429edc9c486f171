"""``[size]``: the measure that governs exists, and the device's own measure is stated once."""

from __future__ import annotations

import pytest

from planner.errors import JobError
from planner.job import Station
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n[size]\n'
MEASURE = '[[size.measure]]\nname = "cuff"\nkind = "width"\nrecipient_mm = 58.0\ntaken = 2026-11-01\n'


def test_the_devices_own_measure_is_a_number_or_a_station(make_job: MakeJob) -> None:
    """Written as a number, or as a part with a place along its length, under either key."""
    forms = (
        "device_mm = 62.0\n",
        *(f'{k} = {{ part = "a", station_percent = 50.0 }}\n' for k in ("device", "device_mm")),
    )
    found = [make_job(HEAD + MEASURE + form, a=cuboid(10, 10, 10)).size.measures[0].device_mm for form in forms]

    assert found == [62.0, *(2 * [Station(part="a", station_percent=50.0)])]


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ('governs = "cufff"\n' + MEASURE + "device_mm = 62.0\n", "'cufff'.*cuff"),
        (MEASURE + 'device_mm = 62.0\ndevice = { part = "a", station_percent = 50.0 }\n', "both stated"),
        (MEASURE + "device_mm = 0.0\n", "device_mm"),
        (MEASURE + "device_mm = 62.0\noff_mm = 58.0\n", "58 mm is as much as the 58 mm that were measured"),
        ("percent = 0.5\n", "percent"),
        ('side = "lift"\n', "left"),
    ],
)
def test_what_cannot_be_meant_is_refused(text: str, wrong: str, make_job: MakeJob) -> None:
    """A measure that is not there, two device measures, and sizes out of all reach."""
    with pytest.raises(JobError, match=wrong):
        make_job(HEAD + text, a=cuboid(10, 10, 10))
