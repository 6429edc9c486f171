"""A job written from a folder: it reads back, and every guess in it is marked."""

from __future__ import annotations

import tomllib
from pathlib import Path

from planner.job import Printer, job_of_folder, job_text, read_job
from tests.shapes import cuboid, written


def test_what_is_written_reads_back(tmp_path: Path, printer: Printer) -> None:
    """Odd names too: quotes and letters of any script come back as they were."""
    written(cuboid(20, 10, 5), tmp_path / "jaw's Ω.stl")
    job = job_of_folder(tmp_path, printer=printer)
    text = job_text(job, {part.name: "0" * 64 for part in job.parts}, "bench-220")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")

    assert "GUESS" in text
    assert tomllib.loads(text)["part"][0]["sha256"] == "0" * 64
    assert [part.name for part in read_job(tmp_path / "job.toml").parts] == [part.name for part in job.parts]
