"""Options that several commands share: what may be typed is what a job may say."""

from __future__ import annotations

from planner.cli.options import LanguageChoice, PaperChoice, spoken
from planner.job import LANGUAGES
from planner.output import SIZES


def test_what_is_typed_is_what_a_job_knows() -> None:
    """Languages and papers are the same in both, and none typed is none."""
    assert tuple(one.value for one in LanguageChoice) == LANGUAGES
    assert {one.value for one in PaperChoice} == set(SIZES)
    assert spoken(None) is None
    assert spoken(LanguageChoice.ar) == "ar"
