"""A table read key by key: each mistake names the key and what to write."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from planner.errors import JobError
from planner.job import Table


@pytest.mark.parametrize(
    ("read", "word"),
    [
        (lambda t: t.number("n", high=5.0), "it must be from 0 to 5"),
        (lambda t: t.number("missing"), "it is missing"),
        (lambda t: t.text("n"), "a text is needed"),
        (lambda t: t.flag("word", default=True), "true or false is needed"),
        (lambda t: t.word("word", ("left", "right")), "did you mean 'left'"),
        (lambda t: t.text("empty"), "it is empty"),
        (lambda t: t.done(), "no such key is known"),
    ],
)
def test_a_mistake_is_one_sentence(read: Callable[[Table], object], word: str) -> None:
    """The place, the key, what is wrong and what to do."""
    with pytest.raises(JobError) as caught:
        read(Table({"n": 9.0, "word": "lefft", "empty": " "}, "job.toml [x]"))

    assert str(caught.value).startswith("job.toml [x]")
    assert word in str(caught.value)


def test_a_typed_slip_is_found_where_a_key_is_missing() -> None:
    """A key that looks like the one asked for is named."""
    with pytest.raises(JobError, match="'cout' is there: did you mean 'count'"):
        Table({"cout": 2}, "job.toml").number("count")
