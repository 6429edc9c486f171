"""The Heron: its meshes are what its formulas say, and the survey measures what closed forms give."""

from __future__ import annotations

import hashlib
import tomllib
from pathlib import Path

import numpy as np
import pytest

from planner.job import read_job, shipped
from planner.mesh import read_solid
from planner.survey import survey
from sample_parts.generate import FOLDER, PARTS, solid
from sample_parts.truths import text

HERE = shipped("sample_parts") / "heron"
EXPECTED = tomllib.loads((HERE / "expected.toml").read_text(encoding="utf-8"))


def _file(name: str) -> Path:
    """Return the committed mesh of a part."""
    return next(FOLDER.glob(f"{name}.*"))


@pytest.mark.parametrize("name", PARTS)
def test_committed_meshes_are_what_the_formulas_give(name: str) -> None:
    """Each mesh is sound, one body, and has the volume and area of the part made afresh."""
    read, made = read_solid(_file(name)), solid(name)

    assert read.sound
    assert read.bodies_n == 1
    assert read.volume_mm3 == pytest.approx(made.volume_mm3, rel=1e-5)
    assert read.area_mm2 == pytest.approx(made.area_mm2, rel=1e-5)
    assert 300 <= read.triangles_n <= 20_000


def test_expected_truths_are_written_from_the_dimensions() -> None:
    """expected.toml is what the closed forms give today."""
    assert (HERE / "expected.toml").read_text(encoding="utf-8") == text()


@pytest.mark.parametrize("name", EXPECTED)
def test_the_survey_measures_the_closed_forms(name: str) -> None:
    """Volume within 0.1 %, walls within 1 %, bores and slots within 0.02 mm of closed forms."""
    truth, found = EXPECTED[name], survey(read_solid(_file(name)))
    if "volume_mm3" in truth:
        assert found.volume_mm3 == pytest.approx(truth["volume_mm3"], rel=1e-3)
    if "least_wall_mm" in truth:
        assert found.walls.least_clear is not None
        assert found.walls.least_clear.thickness_mm == pytest.approx(truth["least_wall_mm"], rel=0.01)
    if "bores" in truth:
        meant = sorted((b["drawn_diameter_mm"], b["diameter_mm"], b["depth_mm"], b["through"]) for b in truth["bores"])
        have = sorted((b.drawn_diameter_mm, b.diameter_mm, b.depth_mm, b.through) for b in found.bores)
        assert np.allclose(np.array(have, float), np.array(meant, float), atol=0.02)
    if "slots" in truth:
        have_slots = sorted((s.width_mm, s.length_mm) for s in found.slots)
        assert np.allclose(have_slots, [(s["width_mm"], s["length_mm"]) for s in truth["slots"]], atol=0.02)


def test_there_are_enough_parts_and_pieces() -> None:
    """Twelve kinds and twenty pieces at least, every duty used, one mesh a 3MF."""
    job = read_job(HERE / "job.toml")

    assert len(job.parts) >= 12
    assert sum(part.count for part in job.parts) >= 20
    assert {part.duty for part in job.parts} == {"shell", "load", "pin", "cover", "soft"}
    assert any(part.mesh.suffix == ".3mf" for part in job.parts)


def test_the_brackets_are_mirror_images() -> None:
    """Left and right bracket have the same volume, and the left mirrored across y lies on the right."""
    left, right = read_solid(_file("bracket-left")), read_solid(_file("bracket-right"))
    mirrored = left.vertices_mm * [1, -1, 1]

    assert left.volume_mm3 == pytest.approx(right.volume_mm3, rel=1e-6)
    assert np.sort(mirrored.round(3), axis=0) == pytest.approx(np.sort(right.vertices_mm.round(3), axis=0), abs=2e-3)


def test_the_job_names_the_files_that_are_there() -> None:
    """Every sha256 of the job is that of its mesh."""
    for part in read_job(HERE / "job.toml").parts:
        assert hashlib.sha256(part.mesh.read_bytes()).hexdigest() == part.sha256, part.name
