"""A table read key by key: each mistake names the key and what to write."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

import pytest

from planner.errors import JobError, ProfileError
from planner.job import Table

RAW = {
    "n": 9.0,
    "word": "lefft",
    "empty": " ",
    "early": date(1, 1, 2),
    "late": datetime(9998, 12, 31, 17, 30),
    "range": {"value": 1.0, "low": -5.0, "high": 2.0, "source": "ours"},
}


@pytest.mark.parametrize(
    ("read", "word"),
    [
        (lambda t: t.number("n", high=5.0), "it must be from 0 to 5"),
        (lambda t: t.number("missing"), "it is missing"),
        (lambda t: t.text("n"), "a text is needed"),
        (lambda t: t.flag("word", default=True), "true or false is needed"),
        (lambda t: t.word("word", ("left", "right")), "did you mean 'left'"),
        (lambda t: t.text("empty"), "it is empty"),
        (lambda t: t.day("early"), "the year 1 cannot be; it must be from 1900 to 2199"),
        (lambda t: t.moment("late"), "the year 9998 cannot be"),
        (lambda t: t.sourced("range", low=0.0), "-5 cannot be; it must be from 0"),
        (lambda t: t.done(), "no such key is known"),
    ],
)
def test_a_mistake_is_one_sentence(read: Callable[[Table], object], word: str) -> None:
    """The place, the key, what is wrong and what to do."""
    with pytest.raises(JobError) as caught:
        read(Table(RAW, "job.toml [x]"))

    assert str(caught.value).startswith("job.toml [x]")
    assert word in str(caught.value)


def test_a_typed_slip_is_found_where_a_key_is_missing() -> None:
    """A key that looks like the one asked for is named."""
    with pytest.raises(JobError, match="'cout' is there: did you mean 'count'"):
        Table({"cout": 2}, "job.toml").number("count")


def test_a_word_that_is_only_faintly_like_one_is_answered_with_all_of_them() -> None:
    """``screw`` is no slip of ``wood-screw``: whoever wrote it may have meant a machine screw."""
    with pytest.raises(JobError, match="'screw' is not known; known here: machine-screw, wood-screw"):
        Table({"kind": "screw"}, "job.toml").word("kind", ("wood-screw", "machine-screw"))


def test_a_missing_key_names_the_command_that_shows_its_table() -> None:
    """Only in a job file: other files' tables are not all shown."""
    with pytest.raises(JobError, match=r"add joins = …; fitwright keys hardware shows how\."):
        Table({}, "job.toml [[hardware]] 1").texts("joins", least=1)
    with pytest.raises(ProfileError, match=r"add joins = …\."):
        Table({}, "mine.toml [[hardware]] 1", ProfileError).texts("joins", least=1)
