"""Parts in doubtful units are asked about first, and nothing is asked or guessed of their bores before that."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from planner.job import job_of_folder, read_printer, with_edits
from planner.plan import prepare
from planner.rules import check, open_doubts
from tests.shapes import bored_plate, written

INCH = 25.4
SPECK = bored_plate(90 / INCH, 60 / INCH, 20 / INCH, [(20 / INCH, 20 / INCH, 6.76 / INCH, 48)])
PLATE = bored_plate(120, 60, 6, [(10, 10, 3.4, 48), (110, 10, 3.4, 48)])


def test_files_in_inches_among_files_in_millimetres_are_one_question(tmp_path: Path) -> None:
    """Two specks with bores of 0.27: one question, inch likeliest; once answered, the plates' bores are left to ask."""
    for name, solid in {"plate": PLATE, "block": SPECK, "other_block": SPECK}.items():
        written(solid, tmp_path / f"{name}.stl")
    ready = prepare(
        job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path), mesh_unit=None), date(2026, 12, 1)
    )
    doubts = open_doubts(ready.job, ready.surveys)
    unit, *others = doubts
    (question,) = [one for one in check(ready.bound, 100.0).questions if one.id == unit.id]

    assert (unit.id, unit.default, unit.text) == (
        "unit-block",
        "inch",
        "In which unit are these drawn: block and other_block? In mm block would be 3.543 x 2.362 x 0.7874 mm.",
    )
    assert question.settles_n == 2
    assert {feature[0] for one in others if one.id.startswith("bores") for feature in one.features} == {"plate"}
    assert {part for one in ready.job.hardware for part in one.joins} == {"plate"}
    assert [part.ignore_bores for part in ready.job.parts] == [False, False, False]

    after = with_edits(ready.job, unit.option("inch").edits)
    assert {part.name: part.mesh_unit for part in after.parts} == {
        "plate": None,
        "block": "inch",
        "other_block": "inch",
    }
    assert not [one for one in open_doubts(after, ready.surveys) if one.id.startswith("unit")]
