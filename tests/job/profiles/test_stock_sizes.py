"""Stock sizes by kind: smallest first, nuts and washers by their screws."""

from __future__ import annotations

import pytest

from planner.job import read_tables


@pytest.mark.parametrize(
    "kind", ["machine-screw", "wood-screw", "dowel-pin", "binding-post", "nut", "washer", "insert", "bearing"]
)
def test_every_kind_is_told_smallest_first(kind: str) -> None:
    """What is sold of a kind stands in order of its diameter."""
    sizes = [size.diameter_mm.value for size in read_tables().sizes(kind)]

    assert sizes
    assert sizes == sorted(sizes)


def test_nuts_and_washers_go_with_their_screws_and_the_unknown_has_no_stock() -> None:
    """A nut's sizes are the machine screws'; of something that nobody sells there is none."""
    stock = read_tables()

    assert stock.sizes("nut") == stock.sizes("machine-screw")
    assert stock.sizes("rivet") == ()
