"""Notes beside a plate: support, openings to clear, and parts that lie in others."""

from __future__ import annotations

from planner.output.page.plate_notes import plate_notes
from planner.plan import Plan


def test_support_is_named_with_its_volume(plan: Plan) -> None:
    """A plate with support names each part that stands on it; one without says nothing of it."""
    parts = {part.part.name: part for part in plan.parts}
    for plate in plan.plates:
        notes = plate_notes(plate, parts, [])
        held = {p.part for p in plate.placements if (e := parts[p.part].estimate) and e.needs_support}
        if plate.group.support:
            assert all(any(name in note for note in notes) for name in held)
        else:
            assert notes == []


def test_a_nested_part_is_named(plan: Plan) -> None:
    """The inner and the outer part, in this order."""
    parts = {part.part.name: part for part in plan.parts}

    assert "cap lies in an opening of ring." in plate_notes(plan.plates[0], parts, [("cap", "ring")])
