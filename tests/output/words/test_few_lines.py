"""Text that fits a screen."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planner.output.words.few_lines import Section, in_room, wrapped

WORDS = st.text("abcdefghij_", min_size=1, max_size=30)
ENTRY = st.lists(st.just("x" * 10), min_size=1, max_size=5).map(tuple)
SECTION = st.builds(
    Section, title=st.just("title"), entries=st.lists(ENTRY, max_size=30).map(tuple), least_n=st.just(1)
)


@given(st.lists(WORDS, min_size=1, max_size=40), st.integers(1, 5))
def test_no_word_is_broken_and_no_line_is_wider_than_80(words: list[str], lines_n: int) -> None:
    """Every word stands whole, and a cut text says that it is cut."""
    lines = wrapped(" ".join(words), first="no    ", rest="      ", lines_n=lines_n)

    assert len(lines) <= lines_n
    assert all(len(line) <= 80 for line in lines)
    told = " ".join(lines).split()[1:]
    cut = told[-1] == "…"
    assert told[: len(told) - cut] == words[: len(told) - cut]
    assert cut or told == words


@given(st.lists(SECTION, max_size=5))
def test_sections_fit_and_every_entry_is_shown_or_counted(sections: list[Section]) -> None:
    """With room for each section's first entry, the lines fit; entries shown and those counted add up."""
    lines = in_room(sections, 60)

    assert len(lines) <= 60
    counted = sum(int(line.split()[1]) for line in lines if line.startswith("      and "))
    shown = sum(line == "x" * 10 for line in lines)
    assert counted <= sum(len(section.entries) for section in sections)
    if not counted:
        assert shown == sum(len(entry) for section in sections for entry in section.entries)


def test_room_left_by_one_section_goes_to_the_others() -> None:
    """Two entries of one line beside twenty: with 16 lines all of the first and nine of the second (by hand)."""
    few, many = (Section(title=name, entries=(("e",),) * n) for name, n in (("few", 2), ("many", 20)))

    assert in_room([few, many], 16) == ["", "few", "e", "e", "", "many", *["e"] * 9, "      and 11 more"]
