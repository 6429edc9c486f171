"""Spools that several jobs list, counted once or as many times as there are."""

from __future__ import annotations

import pytest

from planner.job import Spool
from planner.output.json.stock import stock_of


def _of(*rows: tuple[str, float | None]) -> tuple[Spool, ...]:
    """Return green spools by id and grams."""
    return tuple(Spool(material="petg", colour="green", left_g=left_g, id=name) for name, left_g in rows)


@pytest.mark.parametrize(
    ("a", "b", "least_g", "most_g"),
    [
        ((("", 240.0),), (("", 235.0),), 235.0, 475.0),  # one spool weighed twice, or two
        ((("", 250.0),), (("", 250.0),), 250.0, 500.0),
        ((("", 250.0), ("", 250.0)), (("", 250.0),), 500.0, 750.0),  # one job sees two of them
        ((("s-1", 240.0),), (("s-1", 235.0),), 235.0, 235.0),  # one spool: it gets lighter only
        ((("s-1", 250.0),), (("s-2", 250.0),), 500.0, 500.0),
        ((("s-1", 250.0),), (("", 250.0),), 500.0, 500.0),  # an id says that it is another one
        ((("s-1", None),), (("s-1", 250.0),), 250.0, 250.0),
    ],
)
def test_spools_of_two_jobs_are_counted_as_they_can_be(
    a: tuple[tuple[str, float | None], ...], b: tuple[tuple[str, float | None], ...], least_g: float, most_g: float
) -> None:
    """By hand: what two jobs list is at least and at most so many grams, and a question is asked just where they differ."""
    stock = stock_of({"a": _of(*a), "b": _of(*b)}, "petg")

    assert sum(left_g or 0.0 for _, left_g in stock.least) == least_g
    assert sum(left_g or 0.0 for _, left_g in stock.most) == most_g
    assert bool(stock.doubts) == (least_g < most_g)
    assert stock_of({"a": _of(*a)}, "pla").least == ()
