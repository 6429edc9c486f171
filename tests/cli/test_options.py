"""Options that several commands share: what may be typed is what a job may say."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.cli.options import LanguageChoice, PaperChoice, spoken
from planner.job import LANGUAGES
from planner.output import SIZES
from tests.cli.running import run


def test_what_is_typed_is_what_a_job_knows() -> None:
    """Languages and papers are the same in both, and none typed is none."""
    assert tuple(one.value for one in LanguageChoice) == LANGUAGES
    assert {one.value for one in PaperChoice} == set(SIZES)
    assert spoken(None) is None
    assert spoken(LanguageChoice.ar) == "ar"


@pytest.mark.parametrize("command", ["check", "window", "plan", "chapter", "inspect"])
def test_what_names_no_workers_is_refused(folder: Path, command: str) -> None:
    """A word that is neither a number nor an address: one sentence, also where the answer would be kept."""
    done = run(command, folder / "plate.stl", "--workers", "many")

    assert (done.returncode, "is neither" in done.stderr) == (2, True), done.stderr
