"""A text is parted into runs by script, and put together again it is the text."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from planner.output.paper_files.lettering.script_runs import pieces

LETTERS = "ab 2(×)-يدשק\u064bकि\u094d\u200dกিক"


def _told(text: str) -> list[tuple[str, str]]:
    """Return the pieces with their scripts."""
    return [(one.text, one.face.script if one.face else "") for one in pieces(text)]


def test_a_name_from_right_to_left_is_one_run_and_one_from_left_to_right_breaks_at_blanks() -> None:
    """Digits between belong to the first; what follows the last letter does not."""
    assert _told("arm يد 2 يمنى × 2") == [("arm ", ""), ("يد 2 يمنى", "Arabic"), (" × 2", "")]
    assert _told("बायाँ हाथ") == [("बायाँ", "Devanagari"), (" ", ""), ("हाथ", "Devanagari")]
    assert _told("(יד)") == [("(", ""), ("יד", "Hebrew"), (")", "")]
    assert _told("plain") == [("plain", "")]
    assert _told("") == []


def test_marks_and_joiners_stay_with_their_letter() -> None:
    """A vowel sign, a virama with a joiner, a mark over an Arabic letter."""
    assert _told("क\u094d\u200dषि") == [("क\u094d\u200dषि", "Devanagari")]
    assert _told("ي\u064b") == [("ي\u064b", "Arabic")]


@given(st.text(alphabet=LETTERS, max_size=12))
def test_nothing_is_lost_and_no_two_neighbours_could_be_one(text: str) -> None:
    """The pieces in their order are the text; the papers' own face never stands twice in a row."""
    found = pieces(text)

    assert "".join(one.text for one in found) == text
    assert all(one.text for one in found)
    assert not any(a.face is None and b.face is None for a, b in pairwise(found))
