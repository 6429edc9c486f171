"""The plates in a terminal: what lies on each, what is mirrored, and what lies on none."""

from __future__ import annotations

from dataclasses import replace

from planner.output.terminal.plates_text import mirrored_words, plates_table, rebored_words, unplaced
from planner.packing import counted
from planner.plan import Plan
from tests.output.terminal.consoles import console
from tests.plan.jobs import changed


def test_each_plate_names_what_lies_on_it(plan: Plan) -> None:
    """Every part of every plate stands in the table, whole, with its count."""
    out, written = console()
    out.print(plates_table(plan))
    words = " ".join(written.getvalue().split())

    for plate in plan.plates:
        for part, n in counted(plate.placements).items():
            assert part in words
            assert n == 1 or f"{part} × {n}" in words


def test_mirrored_parts_are_told(plan: Plan) -> None:
    """The Heron is drawn for the right and built for the left: its handed parts are mirrored (job file)."""
    assert mirrored_words(plan) == "Mirrored for the left side: cuff and cover."


def test_a_part_on_no_plate_is_told(plan: Plan) -> None:
    """With all plates it is said of none; without the plates of the cuff, of the cuff and what lies beside it."""
    assert unplaced(plan) == ""
    left = [plate for plate in plan.plates if "cuff" not in counted(plate.placements)]
    fewer = changed(plan, plates=tuple(left))
    gone = {part.name for part in plan.job.parts} - {part for plate in left for part in counted(plate.placements)}

    assert "cuff" in unplaced(fewer)
    assert all(name in unplaced(fewer) for name in gone)
    assert unplaced(replace(fewer, stage=replace(fewer.stage, printed=plan.stage.printed))) == unplaced(fewer)


def test_re_bored_parts_are_told_with_their_size(plan: Plan) -> None:
    """The Heron states none; a job that re-bores its cuff is told to print the plates of that size, not the file."""
    cuff = tuple(replace(part, rebore=part.name == "cuff") for part in plan.job.parts)

    assert rebored_words(plan.job, 87.0) == ""
    assert rebored_words(replace(plan.job, parts=cuff), 87.0).startswith("Re-bored for 87 %: cuff. Print the plates")
