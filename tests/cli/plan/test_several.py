"""Several jobs: a folder each, one calendar, and a sentence that names the path of the one that is wrong."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

from tests.cli.running import run


def test_plan_of_several_jobs_writes_a_chapter(folder: Path, tmp_path: Path) -> None:
    """Two jobs give two folders and their sums."""
    run("start", folder)
    done = run("plan", folder / "job.toml", folder / "job.toml", "-o", tmp_path / "out", "--quiet")
    sums: Any = json.loads((tmp_path / "out" / "chapter.json").read_text(encoding="utf-8"))

    assert done.returncode in (0, 1), done.stderr
    assert done.stdout == ""
    assert len(sums["jobs"]) == 2
    assert len(list((tmp_path / "out").glob("*/report.html"))) == 2


def test_what_is_wrong_with_one_of_several_jobs_names_its_path(folder: Path, tmp_path: Path) -> None:
    """All are called job.toml; the sentence says which one it is about."""
    run("start", folder)
    bad = tmp_path / "bad"
    shutil.copytree(folder, bad)
    with (bad / "job.toml").open("a", encoding="utf-8") as file:
        file.write("[nonsense]\n")
    done = run("plan", folder / "job.toml", bad / "job.toml", "-o", tmp_path / "out")

    assert done.returncode == 2
    assert str(bad / "job.toml") in done.stderr
    assert not (tmp_path / "out").exists()
