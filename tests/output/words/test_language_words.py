"""Which papers speak another language: said once, with what stays English."""

from __future__ import annotations

import pytest

from planner.job import LANGUAGES
from planner.output import language_words


@pytest.mark.parametrize("code", LANGUAGES)
def test_what_stays_english_is_said(code: str) -> None:
    """No mixture in silence: for each language one sentence, for English none."""
    assert (language_words(code) == "") == (code == "en")
    assert code == "en" or language_words(code).endswith("The record stays English")
