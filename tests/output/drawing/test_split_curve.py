"""The trade-off of a plate as a curve: what the page draws is what the batch weighed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planner.job import read_printer
from planner.output.drawing.split_curve import POINTS_MOST, split_curve
from planner.schedule import Counts, Hazard, batch_of

HERE = Path(__file__).parent


def _load(counts: Counts) -> tuple[float, float | None]:
    """One hour and ten grams a piece after five minutes of heating."""
    return 300.0 + 3600.0 * sum(counts), 10.0 * sum(counts)


def test_the_curve_shows_every_number_of_plates_and_falls_in_grams() -> None:
    """From whole to one piece a plate: points in the drawing as rows in the table, losses falling (Daly 2006)."""
    hazard = Hazard.of(read_printer("bench-220", HERE))
    batch = batch_of(("a", "b"), (3, 2), _load, hazard)
    curve = split_curve(batch)

    assert curve is not None
    assert [row[0] for row in curve.rows] == [1, 2, 3, 4, 5]
    assert len(re.findall("<circle", curve.svg)) == len(curve.rows)
    assert [row[2] for row in curve.rows] == sorted((row[2] for row in curve.rows), reverse=True)
    whole = batch.whole
    assert whole.lost_g is not None
    assert curve.rows[0][1] == pytest.approx(whole.expected_s / 3600.0)
    assert curve.rows[0][2] == pytest.approx(whole.lost_g)
    assert len(curve.rows) <= POINTS_MOST


def test_one_piece_and_withheld_grams_have_no_curve() -> None:
    """Where there is nothing to part, or nothing to weigh, nothing is drawn."""
    hazard = Hazard.of(read_printer("bench-220", HERE))

    assert split_curve(batch_of(("a",), (1,), _load, hazard)) is None
    assert split_curve(batch_of(("a",), (4,), lambda counts: (_load(counts)[0], None), hazard)) is None
