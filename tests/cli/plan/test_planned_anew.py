"""A plan of jobs whose chapter has a ledger: what is printed comes again nowhere, or that it does is said."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.cli.running import run


def test_what_is_printed_comes_again_in_no_plan_of_several_and_is_told_in_that_of_one(chapter: Path) -> None:
    """After plate R-07.1 is done, the plan of two jobs lacks it; that of one job names it; a try at another size is none of a chapter's."""
    other = chapter / "r08"
    other.mkdir()
    for file in (chapter / "r07").iterdir():
        text = file.read_bytes()
        (other / file.name).write_bytes(text.replace(b"R-07", b"R-08"))
    both = "plan", "r07/job.toml", "r08/job.toml", "-o", "out", "--quiet"
    first = run(*both, cwd=chapter)
    assert first.returncode in (0, 1), first.stderr
    assert run("done", "R-07.1", "--even-so", cwd=chapter).returncode == 0

    again = run(*both, "--json", "sums.json", cwd=chapter)
    sums: Any = json.loads((chapter / "sums.json").read_text(encoding="utf-8"))
    assert again.returncode in (0, 1), again.stderr
    ids = {row["id"] for row in sums["schedule"]}
    assert "R-07.1" not in ids
    assert ids >= {"R-08.1"}

    alone = run("plan", "r07/job.toml", "-o", "alone", "--quiet", cwd=chapter)
    assert "1 plate of R-07: R-07.1 is printed" in alone.stderr
    assert "fitwright chapter" in alone.stderr

    tried = run(*both, "--scale", "110", cwd=chapter)
    assert tried.returncode == 2
    assert "its ledger would keep a try as the plan" in tried.stderr
