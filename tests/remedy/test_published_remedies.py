"""Remedies on published meshes (tests/data/bores, licences there), answered and judged from the file like any other job."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from planner.finding import Verdict
from planner.job import Edit, job_of_folder, read_job, read_printer, write_edits
from planner.plan import Prepared, prepare, proved_remedies
from planner.rules import check
from tests.remedy.test_search import faults_of
from tests.shapes import DATA

TODAY = date(2026, 12, 1)
PARTS = ("plate_front", "brace", "stepped_plate")
ANSWERS = {"bores-2.5-blind": "m3-thread", "bores-2.5-through": "2.5mm-pin", "bores-5.0-through": "m6-thread"}


def _answered(percent: float, folder: Path) -> Prepared:
    """Return the parts with their questions answered, the first answer where none is named, at a size."""
    meshes = folder / "meshes"
    meshes.mkdir()
    for name in PARTS:
        shutil.copy(DATA / "bores" / f"{name}.stl", meshes)
    ready = prepare(job_of_folder(meshes, printer=read_printer("bench-220", Path()), mesh_unit=None), TODAY)
    edits = [Edit(table="size", put={"percent": percent})]
    for one in ready.asked:
        options = {option.name: option for option in one.doubt.options}
        edits += options.get(ANSWERS.get(one.doubt.id, ""), one.doubt.options[0]).edits
    return prepare(read_job(write_edits(ready.job, edits, "answered", folder / "job.toml")), TODAY)


def test_remedies_of_published_parts_settle_and_spoil_nothing(tmp_path: Path) -> None:
    """At 70 % each remedy keeps what it promises, and what has none says for every way why it fails."""
    ready = _answered(70.0, tmp_path)
    remedies = proved_remedies(ready)
    stopped = [f for f in check(ready.bound, 70.0).findings if f.verdict is Verdict.NO_GO]

    assert remedies.found
    assert faults_of(ready, tmp_path) == []
    assert stopped
    assert all(refused and all(one.why for one in refused) for _, refused in remedies.unsettled)
