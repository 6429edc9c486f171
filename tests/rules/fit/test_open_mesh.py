"""What is said of material in a mesh that is not sound."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
import trimesh

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import Checked, check
from tests.conftest import MakeJob
from tests.shapes import cuboid

SHEET = '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
LOOKED = '[[override]]\nrule = "mesh.open"\nrole = "lead"\nreason = "the gap is a scratch, looked at"\n'


@pytest.fixture(name="checked")
def _checked(make_job: MakeJob, tmp_path: Path) -> dict[str, Checked]:
    """Return the checks of a sheet 0.6 mm thick: whole, with three triangles gone, and that answered for."""
    sheet = cuboid(40, 30, 0.6)
    made = {}
    for name, text in (("whole", SHEET), ("open", SHEET), ("looked", SHEET + LOOKED)):
        job = make_job(text, a=sheet)
        faces = sheet.faces if name == "whole" else sheet.faces[:-3]
        trimesh.Trimesh(sheet.vertices_mm, faces, process=False).export(tmp_path / "a.stl")
        made[name] = check(prepare(job, date(2026, 12, 1)).bound, 100.0)
    return made


def _walls(checked: Checked) -> list[Verdict]:
    """Return the verdicts on thin walls."""
    return [finding.verdict for finding in checked.findings if finding.rule == "wall.thin"]


def test_a_thin_wall_of_an_open_mesh_is_a_hold(checked: dict[str, Checked]) -> None:
    """Three lines do not fit in 0.6 mm: no-go where the mesh is whole; where it is open, the mesh is to be repaired."""
    assert _walls(checked["whole"]) == [Verdict.NO_GO]
    assert _walls(checked["open"]) == [Verdict.HOLD]
    assert checked["open"].verdict is Verdict.HOLD
    assert any(
        "repair the mesh" in finding.remedy for finding in checked["open"].findings if finding.rule == "wall.thin"
    )


def test_who_answers_for_the_mesh_answers_for_its_walls(checked: dict[str, Checked]) -> None:
    """A lifted ``mesh.open`` takes the mesh as it is: its thin wall is a no-go again."""
    assert _walls(checked["looked"]) == [Verdict.NO_GO]


def test_the_bed_needs_no_closed_surface(make_job: MakeJob, tmp_path: Path) -> None:
    """A sheet of 400 mm is too large for a bed of 220, open or not."""
    sheet = cuboid(400, 30, 5)
    job = make_job(SHEET, a=sheet)
    trimesh.Trimesh(sheet.vertices_mm, sheet.faces[:-3], process=False).export(tmp_path / "a.stl")
    found = check(prepare(job, date(2026, 12, 1)).bound, 100.0).findings

    assert [finding.verdict for finding in found if finding.rule == "bed.over"] == [Verdict.NO_GO]
