"""Catalogues: complete in every language, true to their placeholders, and signed by nobody until a speaker does."""

from __future__ import annotations

import string
from pathlib import Path

import pytest
from babel.messages.plurals import get_plural

from planner.output.tongue import catalogue_path, read_catalogue
from tests.output.tongue.catalogues import TRANSLATED, catalogue, messages

MARKED = "Machine-made, not yet read by a speaker."


def _places(text: str) -> set[str]:
    """Return the placeholders of a text."""
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_catalogue_says_all_that_papers_say_and_nothing_else(code: str) -> None:
    """Every message once, in every plural form of the language (Unicode CLDR, as Babel has them), none marked as doubtful."""
    have = {tuple(one.id) if isinstance(one.id, list | tuple) else one.id: one for one in catalogue(code) if one.id}

    assert set(have) == set(messages()), "run python -m tests.output.tongue.catalogues and translate what is new"
    for key, one in have.items():
        forms = one.string if isinstance(one.string, list | tuple) else (one.string,)
        assert all(forms), key
        assert len(forms) == (get_plural(code)[0] if isinstance(key, tuple) else 1), key
        assert not one.fuzzy, key


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_translation_keeps_its_placeholders(code: str) -> None:
    """Each value of the English stands in the translation; only the count may be a word, as Arabic writes one and two."""
    for one in catalogue(code):
        if not one.id:
            continue
        wants = _places(one.id if isinstance(one.id, str) else one.id[1])
        for form in (one.string,) if isinstance(one.string, str) else one.string or ():
            assert _places(form) <= wants, one.id
            assert wants - _places(form) <= ({"n"} if not isinstance(one.id, str) and code == "ar" else set()), one.id


@pytest.mark.parametrize("code", TRANSLATED)
def test_no_speaker_has_signed_what_a_machine_made(code: str) -> None:
    """The header says so; whoever signs takes the mark out and names a role."""
    text = catalogue_path(code).read_text(encoding="utf-8")

    assert (MARKED in text) == (read_catalogue(code).signed_by == "")


def test_a_catalogue_weighs_little() -> None:
    """All six together stay under 500 kB in a wheel that packs them to a quarter."""
    assert sum(catalogue_path(code).stat().st_size for code in TRANSLATED) < 500_000
    assert {path.stem for path in Path(catalogue_path("de")).parent.glob("*.po")} == set(TRANSLATED)
