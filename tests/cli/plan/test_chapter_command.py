"""``chapter``: every job of a folder once."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from planner.cli.plan.chapter_command import chapter_files
from planner.errors import CommandError
from tests.cli.running import run


def test_chapter_finds_every_job_of_a_folder_once(folder: Path, tmp_path: Path) -> None:
    """A folder of two jobs, one named again as a file; what holds no job is refused in one sentence."""
    for name in ("r07", "r11"):
        shutil.copytree(folder, tmp_path / "jobs" / name)
        run("start", tmp_path / "jobs" / name)
    done = run(
        "chapter", tmp_path / "jobs", tmp_path / "jobs" / "r07" / "job.toml", "-o", tmp_path / "out", "--json", "-"
    )
    sums: Any = json.loads(done.stdout)

    assert done.returncode in (0, 1), done.stderr
    assert len(sums["jobs"]) == 2
    assert sums == json.loads((tmp_path / "out" / "chapter.json").read_text(encoding="utf-8"))
    assert {"printers", "spools", "prints"} <= set(sums)
    nothing = run("chapter", tmp_path / "out", "-o", tmp_path / "none")
    assert nothing.returncode == 2
    assert "job.toml" in nothing.stderr


def test_the_chapter_of_a_job_is_found_however_the_job_is_named(tmp_path: Path) -> None:
    """By the chapter's folder, a job's folder or a job's file it is the same ledger; two chapters at once are refused."""
    for name in ("first", "second"):
        (tmp_path / name / "r07").mkdir(parents=True)
        (tmp_path / name / "chapter.toml").write_text("", encoding="utf-8")
    first, second = tmp_path / "first", tmp_path / "second"
    for named in (first, first / "r07", first / "r07" / "job.toml"):
        assert chapter_files([named]) == [first / "chapter.toml"]
    assert chapter_files([first / "r07", first / "r11" / "job.toml"]) == [first / "chapter.toml"]
    assert chapter_files([tmp_path]) == []
    with pytest.raises(CommandError, match="two chapters"):
        chapter_files([first / "r07", second / "r07"])
