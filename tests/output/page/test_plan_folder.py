"""The folder of a plan: every file is there, whole, and under a name of its own."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.mesh import read_solid
from planner.output import write_whole_plan
from planner.packing import untouched_files
from planner.plan import Plan, make_plan, prepare
from planner.whole_folder import files_in
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)


def test_the_folder_holds_everything(plan: Plan, heron_folder: Path) -> None:
    """Report, JSON, plates as 3MF and STL, parts at size with percent and side in their names."""
    names = {path.relative_to(heron_folder).as_posix() for path in heron_folder.rglob("*") if path.is_file()}

    assert {"report.html", "plan.json", "plates/plate-01.3mf", "plates/plate-01.stl"} <= names
    assert "parts/cuff-106.5pc-left.stl" in names
    cuff = read_solid(heron_folder / "parts" / "cuff-106.5pc-left.stl")
    drawn = next(part.solid for part in plan.parts if part.part.name == "cuff")
    assert cuff.volume_mm3 == pytest.approx(drawn.volume_mm3 * 1.065**3, rel=1e-4)


def test_names_that_a_file_cannot_tell_apart_get_files_of_their_own(make_job: MakeJob) -> None:
    """Two parts called "a b" and "a-b" do not overwrite each other."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "m.stl"\nduty = "cover"\n' for name in ("a b", "a-b")
    )
    plan = make_plan(prepare(make_job(text, m=cuboid(30, 20, 5)), TODAY))

    assert len({part.file for part in plan.parts}) == 2


def test_a_plan_of_another_size_leaves_no_files_of_the_first_and_all_of_peoples(
    make_job: MakeJob, tmp_path: Path
) -> None:
    """Parts, plates and papers of the earlier size go; a filled-in record and a person's note stay; all else is listed."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = {}\n[[part]]\nname = "a"\nmesh = "m.stl"\nduty = "cover"\n'
    folder = tmp_path / "plan"
    for percent in (100, 120):
        report, papers = write_whole_plan(
            make_plan(prepare(make_job(text.format(percent), m=cuboid(30, 20, 5)), TODAY)), folder
        )
        if percent == 100:
            record = papers.record
            filled = record.read_text(encoding="utf-8") + "# looked at by hand\n"
            record.write_text(filled, encoding="utf-8")
            (folder / "note.txt").write_text("mine", encoding="utf-8")

    names = files_in(folder)
    people = {"note.txt", record.relative_to(folder).as_posix()}
    assert report.is_file()
    assert [name for name in names if name.startswith("parts/")] == ["parts/a-120pc.stl"]
    assert record.read_text(encoding="utf-8") == filled
    assert papers.record.name == "record-2.toml"
    assert papers.record.is_file()
    assert untouched_files(folder) == names - people
    assert list(tmp_path.glob(".*")) == []
