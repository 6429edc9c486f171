"""Another size: only where everything works at it."""

from __future__ import annotations

import pytest

from planner.plan import prepare, proved_remedies
from planner.rules import check
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import cuboid

SIZE = "[size]\npercent = {}\n"


def test_the_nearest_size_at_which_everything_works_is_proved(make_job: MakeJob) -> None:
    """A lying plate of 0.5 mm needs 240 % for six layers of 0.2; a plate of 200 mm then measures 480: on no bed."""
    small = prepare(make_job(PART + SIZE.format(100.0), a=cuboid(40, 30, 0.5)), TODAY)
    long = prepare(make_job(PART + SIZE.format(100.0), a=cuboid(200, 200, 0.5)), TODAY)
    (remedy,) = proved_remedies(small).found

    assert remedy.text == "print at 240 %"
    assert check(small.bound, 240.0).verdict.passes
    assert not [one for one in proved_remedies(long).found if one.kind == "size" and "240" in one.text]


def test_no_size_is_named_that_leaves_another_finding(make_job: MakeJob) -> None:
    """Where nothing helps, what was tried is told and no percentage is."""
    ready = prepare(make_job(PART + SIZE.format(100.0), a=cuboid(215, 208, 0.4)), TODAY)
    shown = proved_remedies(ready).shown(check(ready.bound, 100.0).findings)
    thin = next(finding for finding in shown if finding.rule == "wall.thin")

    assert "print at 3" not in thin.remedy
    assert thin.measured == pytest.approx(0.4)
