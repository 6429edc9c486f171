"""A face is found for a letter of each script that is named, and none for what no face has."""

from __future__ import annotations

import pytest

from planner.output.paper_files.lettering.script_faces import FILES, face_of, installed, runs_left

CJK = ("Chinese and Japanese", "Korean")


@pytest.mark.parametrize(
    ("letter", "script"),
    [
        ("ي", "Arabic"),
        ("ש", "Hebrew"),
        ("क", "Devanagari"),
        ("ক", "Bengali"),
        ("க", "Tamil"),
        ("క", "Telugu"),
        ("ก", "Thai"),
        ("ក", "Khmer"),
    ],
)
def test_a_letter_s_face_is_of_its_script(letter: str, script: str) -> None:
    """By the names of the Unicode Standard's blocks; both weights have outlines."""
    face = face_of(letter)

    assert face is not None
    assert face.script == script
    assert face.font(bold=True).get_nominal_glyph(ord(letter)) == face.font(bold=False).get_nominal_glyph(ord(letter))


def test_what_is_installed_is_all_but_the_large_ones() -> None:
    """Chinese, Japanese and Korean come with an extra."""
    assert set(FILES) - set(installed()) <= set(CJK)
    assert face_of("🔧") is None
    assert face_of("ხ") is None


def test_which_way_letters_run() -> None:
    """Unicode Standard Annex 9, table 4: classes R and AL."""
    assert [runs_left(one) for one in "يשaक3"] == [True, True, False, False, False]
