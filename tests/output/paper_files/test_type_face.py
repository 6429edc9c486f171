"""The face: Latin, Greek and Cyrillic are there in both weights, and what is not is a question mark."""

from __future__ import annotations

from planner.output.paper_files.type_face import letters, shown


def test_letters_of_three_scripts_are_there() -> None:
    """Whole alphabets, digits and the signs that papers use."""
    for text in ("AZaz09", "ŁódźÇñßøå", "ΑΩαω", "АЯая", "×°²³±−"):
        assert {ord(letter) for letter in text} <= letters(), text


def test_other_letters_become_question_marks() -> None:
    """One for each letter, so that lengths stay."""
    assert shown("漢字 a") == "?? a"
