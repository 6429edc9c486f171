"""An elastic that passes the axis, or lies on the cord's side of it, is told with the angle worked out by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.job import PathPoint
from planner.mechanism.cord_effects.cord_moves import cord_moves
from tests.mechanism.cord_effects.one_jaw import OneJaw, one_jaw


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return one_jaw(tmp_path_factory.mktemp("sided"))


def _shuts(device: OneJaw, foot_y: float, hook: tuple[float, float, float]) -> str:
    """Return what is told of an elastic from x = -60 to a hook of the jaw."""
    pull, band = device.job.cords
    path = (PathPoint(copy="plate", at_mm=(-60.0, foot_y, 7.5)), PathPoint(copy="jaw", at_mm=hook))
    job = replace(device.job, cords=(pull, replace(band, path=path)))
    return cord_moves(job, device.solids, device.strung(job), 1.0).cords[0].shuts


def test_an_elastic_passes_the_axis_where_foot_axis_and_hook_are_in_line(device: OneJaw) -> None:
    """A hook 10 mm from the axis at 150 degrees comes to the line through a foot at (-60, 0) after 30 of 40 degrees."""
    x, y = 10.0 * math.cos(math.radians(150)), 10.0 * math.sin(math.radians(150))

    told = "band passes the axis of plate to jaw at 30°, and from 30 to 40° it pulls it shut"
    assert _shuts(device, 0.0, (x, y, 2.5)) == told


def test_an_elastic_on_the_other_side_opens_everywhere_and_on_the_cords_side_nowhere(device: OneJaw) -> None:
    """The cord's hook is at y = -14: a band at y = 10 opens, one at y = -10 works as the cord does."""
    assert not _shuts(device, 10.0, (0.0, 10.0, 2.5))
    assert _shuts(device, -10.0, (0.0, -10.0, 2.5)) == "band pulls plate to jaw shut at every place, as the cord does"
