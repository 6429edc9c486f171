"""A part printed several times is judged over all its copies: the hardest pressed one decides, and is named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import Part
from planner.mechanism import Movement
from planner.strength.loads.every_copy import copies_of, over_copies
from planner.strength.loads.part_load import LoadCase, PartLoad
from planner.strength.screened import _asked
from tests.mechanism.cord_effects.one_jaw import two_jaws

NEAR_MM, FAR_MM = (20.0, 0.0, 2.5), (60.0, 0.0, 2.5)
CASE = LoadCase(
    pushes=(PartLoad(at_mm=(10.0, 0.0, 0.0), force_n=(0.0, 6.0, 0.0)),),
    answers=(PartLoad(at_mm=(0.0, 0.0, 0.0), force_n=(0.0, -6.0, 0.0), couple_n_mm=(0.0, 0.0, -60.0)),),
    ways=(((0.0, 0.0, 0.0), (10.0, 0.0, 0.0)),),
    said="6 N at the tip",
)


def test_the_copy_that_is_pressed_harder_is_judged_although_it_is_the_second(tmp_path: Path) -> None:
    """Two jaws of one mesh grip 20 and 60 mm from their pins: what is known holds both, each case with its copy."""
    cases = _jaw(tmp_path, NEAR_MM, FAR_MM)
    grips = {
        one.said.rpartition(", ")[2]: max(load.at_mm[0] for load in one.pushes)
        for one in cases
        if " N of grip at the tip" in one.said
    }

    assert grips == pytest.approx({"on jaw": 20.0, "on jaw#2": 60.0})


def _jaw(folder: Path, *grips_mm: tuple[float, float, float]) -> Sequence[LoadCase]:
    """Return what is known to press the jaw of a device whose two copies grip at places of their own."""
    device = two_jaws(folder)
    job = replace(device.job, use=replace(device.job.use, load_n=10.0))
    moving = Movement(
        job=job,
        solids=device.solids,
        surveys=device.surveys,
        claims=device.claims,
        downs=dict.fromkeys(device.solids, (0.0, 0.0, -1.0)),
        mechanism=device.mechanism,
    )
    grips = dict(zip(("jaw", "jaw#2"), grips_mm, strict=True))
    vars(moving)["strung"] = {  # found once, then kept: the way of a second cord is told by the first alone
        name: one
        if isinstance(one, str) or one.cord.kind == "elastic"
        else replace(one, cord=replace(one.cord, grip_at_mm=grips[one.driven]))
        for name, one in moving.strung.items()
    }
    asked, _, _ = _asked(job, device.solids, device.surveys, device.claims, moving, moving.downs, ("jaw",))
    ((*_, (known, _)), _) = asked[0]
    return known


def test_copies_under_the_same_loads_are_judged_once_and_not_named() -> None:
    """Equal but for rounding of places and forces: one case, in the words that it had."""
    nearly = replace(CASE, pushes=(replace(CASE.pushes[0], at_mm=(10.001, 0.0, 0.0), force_n=(0.0, 6.001, 0.0)),))

    (found,) = over_copies([("link", [CASE]), ("link#2", [nearly]), ("link#3", [CASE, CASE])])

    assert found == replace(CASE, copies=("link", "link#2", "link#3"))


def test_a_case_of_some_copies_names_them() -> None:
    """Two of three pressed alike, the third by three times as much: both cases, each with its copies."""
    hard = replace(CASE, pushes=(replace(CASE.pushes[0], force_n=(0.0, 18.0, 0.0)),))

    found = over_copies([("link", [CASE]), ("link#2", [hard]), ("link#3", [CASE])])

    assert [one.said for one in found] == ["6 N at the tip, on link and link#3", "6 N at the tip, on link#2"]
    assert [one.pushes for one in found] == [CASE.pushes, hard.pushes]


def test_copies_that_stand_nowhere_are_asked_where_a_load_is_told_of_them() -> None:
    """Those that stand, those that a load names, and else the part itself."""
    link = Part(name="link", mesh=Path("link.stl"), count=3)

    assert copies_of(link, {"link", "link#2"}, ["link#2", "jaw"]) == ["link", "link#2"]
    assert copies_of(link, (), ["link#3", "links"]) == ["link#3"]
    assert copies_of(link, (), ()) == ["link"]
