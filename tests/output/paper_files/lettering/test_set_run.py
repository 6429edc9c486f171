"""A run is shaped: letters take their forms, and stand in the order that the Unicode Standard gives them."""

from __future__ import annotations

import pytest
from bidi import get_display

from planner.output.paper_files.lettering.script_faces import face_of
from planner.output.paper_files.lettering.set_run import SetRun, set_run


def _set(text: str, *, bold: bool = False) -> SetRun:
    """Shape a text with its own face."""
    face = face_of(text[0])
    assert face is not None
    return set_run(text, face, bold=bold)


@pytest.mark.parametrize("text", ["יד לגינה", "ذراع 2 الأيمن", "יד 12 ו 34 ימין", "د"])
def test_letters_stand_where_another_library_puts_them(text: str) -> None:
    """From left to right as python-bidi 0.6 orders them (Unicode Standard Annex 9), numbers among them."""
    letters = sorted(_set(text).letters, key=lambda one: one[1])
    seen = "".join(group if group.isdigit() else group[::-1] for group, _, _ in letters)

    assert seen == get_display(text, base_dir="R")


def test_letters_are_read_in_the_order_in_which_they_were_written() -> None:
    """Whatever way they run."""
    for text in ("ذراع 2 الأيمن", "हस्त क्षित्रि", "มือสวน"):
        assert "".join(group for group, _, _ in _set(text).letters) == text


def test_an_arabic_letter_has_four_forms_and_a_hindi_vowel_stands_before_its_letter() -> None:
    """Unicode Standard 9.2 and 12.1: joined letters differ from those alone; the sign i comes first on the line."""
    alone, joined = _set("ه").glyphs[0].glyph, [one.glyph for one in _set("ههه").glyphs]
    ka, sign = _set("क").glyphs[0].glyph, _set("कि").glyphs

    assert len({alone, *joined}) == 4
    assert [one.glyph for one in sorted(sign, key=lambda one: one.x_em)][-1] == ka
    assert len(_set("क्ष").glyphs) == 1


def test_widths_add_up_and_bold_is_wider() -> None:
    """Groups of letters fill the run without gaps; a face with two weights has two widths."""
    run = _set("ذراع 2 الأيمن")

    assert sum(wide for _, _, wide in run.letters) == pytest.approx(run.width_em)
    assert _set("हाथ", bold=True).width_em > _set("हाथ").width_em
