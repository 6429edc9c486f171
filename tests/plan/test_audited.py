"""From a plan to what a program is held against: the plate's own parts, hours and grams, and no unsound mesh."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.errors import CommandError
from planner.packing import counted
from planner.plan import Plan
from planner.plan.audited import audited, meant_plate
from tests.plan.jobs import changed


def test_a_plate_means_its_parts_as_they_stand_with_its_hours_and_grams(heron_plan: Plan) -> None:
    """For every plate: each part once with its number of copies, posed; support where its estimate has some."""
    by_name = {planned.part.name: planned for planned in heron_plan.parts}
    for plate in heron_plan.plates:
        meant = meant_plate(heron_plan, plate.number)

        assert {part.name: part.count for part in meant.parts} == counted(plate.placements)
        assert all(part.solid is by_name[part.name].posed for part in meant.parts)
        assert {part.support for part in meant.parts} == {plate.group.support}
        assert plate.mass_g is not None
        assert (meant.duration_s, meant.mass_g) == (plate.duration_s.value, plate.mass_g.value)


def test_a_plate_that_is_not_there_is_refused_with_those_that_are(heron_plan: Plan, tmp_path: Path) -> None:
    """Before any program is read."""
    with pytest.raises(CommandError) as refused:
        audited(heron_plan, tmp_path / "none.gcode", 9)

    assert (refused.value.where, refused.value.todo) == ("--plate 9", "its plates are: 1, 2, 3")


def test_no_program_is_held_against_an_unsound_mesh(heron_plan: Plan) -> None:
    """A pad with a fault: its plate is refused by name, the other plates are not."""
    parts = [
        replace(p, posed=replace(p.posed, faults=("it is open",))) if p.part.name == "pad" else p
        for p in heron_plan.parts
    ]
    plan = changed(heron_plan, parts=tuple(parts))

    assert meant_plate(plan, 3).plate == 3
    with pytest.raises(CommandError, match="pad"):
        meant_plate(plan, 1)
