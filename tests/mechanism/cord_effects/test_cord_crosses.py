"""Cords that run through what is not on their way."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.job import PathPoint
from planner.mechanism.cord_effects.cord_crosses import crosses
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from tests.mechanism.cord_effects.one_jaw import one_jaw, two_jaws


def test_a_cord_through_a_part_that_it_does_not_name_is_told(tmp_path: Path) -> None:
    """From (15, -50) to the hook at (0, 16) the way passes (10, -30): the second jaw lies there; from its own eye not."""
    pair = two_jaws(tmp_path)
    pull, band = pair.job.cords
    wrong = (PathPoint(copy="plate", at_mm=(15.0, -50.0, 7.5)), PathPoint(copy="jaw", feature="hook"))
    job = replace(pair.job, cords=(replace(pull, path=wrong, count=1), band))
    found, free = pair.strung(job)["pull"], [pair.strung()[name] for name in ("pull", "pull#2")]
    known = [one for one in free if isinstance(one, StrungCord)]

    assert isinstance(found, StrungCord)
    assert crosses([found], [], pair.solids).endswith(
        "of plate to jaw pull runs through jaw#2, which its path does not name"
    )
    assert len(known) == 2
    assert crosses(known, [], pair.solids) == ""


def test_a_cord_deep_in_a_part_that_leads_it_is_told(tmp_path: Path) -> None:
    """From the plate's far edge, 2.5 mm under its face, the way to a hook above it lies 30 mm and more in the plate.

    Along the face itself, half sunk into it, it lies on the plate.
    """
    device = one_jaw(tmp_path)
    found = []
    for z in (2.5, 5.0):
        way = (PathPoint(copy="plate", at_mm=(-60.0, -14.0, z)), PathPoint(copy="plate", at_mm=(-25.0, -14.0, z)))
        job = device.with_cord(path=(*way, PathPoint(copy="jaw", feature="hook")))
        strung = device.strung(job)["pull"]
        assert isinstance(strung, StrungCord)
        found.append(crosses([strung], [], device.solids))

    assert "pull runs 33 mm deep through plate, where no way is drawn for it" in found[0]
    assert found[1] == ""


def test_a_pin_inside_a_hub_is_nothing_to_go_round(tmp_path: Path) -> None:
    """The jaw is round on one side of its bore only, so its bore's name means the pin, and that lies inside the jaw."""
    pair = two_jaws(tmp_path)
    pull, band = pair.job.cords
    way = (PathPoint(copy="plate", at_mm=(-60.0, 9.0, 7.5)), PathPoint(copy="jaw", feature="b1"), pull.path[-1])
    job = replace(pair.job, cords=(replace(pull, path=way, count=1), band))
    found = pair.strung(job)["pull"]

    assert isinstance(found, StrungCord)
    assert crosses([found], [], pair.solids) == "pull cannot go round the pin at jaw:b1: there it lies inside jaw"
