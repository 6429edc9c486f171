"""A name as a file's name: readable in its own script, short enough, and never one that another file has."""

from __future__ import annotations

import unicodedata
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from planner.packing.files.file_names import LONGEST_BYTES, file_word, taken


def test_marks_stay_with_their_letters() -> None:
    """Vowel signs of Devanagari, points of Hebrew, a joiner; blanks and slashes do not stay."""
    for name in ("हाथ", "शि\u200dक्ष", "יָד", "มือ"):
        assert file_word(name) == unicodedata.normalize("NFC", name)
    assert file_word("a b/c\\d") == "a-b-c-d"
    assert file_word("a b", kept=" ") == "a b"


@given(st.text(max_size=300))
def test_any_name_makes_a_file(name: str) -> None:
    """No separator, no end that systems cut off, and no more bytes than they take."""
    word = file_word(name)

    assert len(word.encode("utf-8", "surrogatepass")) <= LONGEST_BYTES
    assert not set(word) & set('/\\:*?"<>|\0')
    assert word == word.strip(" .")


def test_a_long_name_is_written(tmp_path: Path) -> None:
    """Three thousand letters of three bytes each."""
    (tmp_path / f"{file_word('ह' * 3000)}-112.5x98x100pc-left-2.stl").write_text("x", encoding="utf-8")

    assert len(list(tmp_path.iterdir())) == 1


def test_capitals_do_not_tell_files_apart() -> None:
    """As on systems that keep capitals and do not compare them."""
    assert taken("JAW-100pc.stl", ["jaw-100pc.stl"])
    assert not taken("jaws.stl", ["jaw.stl"])
