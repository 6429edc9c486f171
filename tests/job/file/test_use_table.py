"""``[use]`` and ``[[override]]`` of a job file: read whole, or refused in one sentence that names what is near."""

from __future__ import annotations

import pytest

from planner.errors import JobError
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def test_what_is_left_out_stays_open(make_job: MakeJob) -> None:
    """No load, no grip and no place is not a load of 0 N, a grip of 0 N and a room at 20 °C."""
    use = make_job(HEAD, a=cuboid(10, 10, 10)).use

    assert (use.load_n, use.grip_n, use.pull_n, use.hottest_c, use.kept) == (None, None, None, None, ())


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("[use]\nload_n = -5.0\n", "cannot be"),
        ("[use]\npull_n = 0.0\n", "cannot be"),
        ("[use]\nload_n = 20.0\nload_h = 1e-6\n", "cannot be"),  # less than a second: no load that lasts
        ("[use]\nwobble_mm = 10000.0\n", "cannot be"),
        ("[use]\nload_h = 100.0\n", "it speaks of a load, and none is stated"),
        ("[use]\nloads_n = 1000.0\n", "it speaks of a load, and none is stated"),
        ('[use]\nkept = ["parked car"]\n', "no place is called 'parked car'"),
        ("[use]\nload = 5.0\n", "load"),
        ('[[override]]\nrule = "wall.thick"\nrole = "maker"\nreason = "tried"\n', "wall.th"),
        ('[[override]]\nrule = "wall.thin"\nreason = "tried"\n', "role"),
    ],
)
def test_what_cannot_be_meant_is_refused(text: str, wrong: str, make_job: MakeJob) -> None:
    """A sign, a place, a key or a rule that does not exist is named."""
    with pytest.raises(JobError, match=wrong):
        make_job(HEAD + text, a=cuboid(10, 10, 10))
