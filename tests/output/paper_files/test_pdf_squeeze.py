"""A card a little too long is drawn smaller; a much longer one goes on to the next page."""

from __future__ import annotations

import pytest
from reportlab.platypus import Flowable, Spacer

from planner.output.paper_files.pdf_squeeze import SQUEEZES, Squeezed, squeezed, tallness


def _blocks(tall_pt: float) -> list[Flowable]:
    """Return spacers of 10 points up to a height."""
    return [Spacer(1, 10.0) for _ in range(round(tall_pt / 10.0))]


def test_heights_add_up() -> None:
    """Seven spacers of 10 points are 70 points high."""
    assert tallness(_blocks(70.0), 100.0, 500.0) == pytest.approx(70.0)


@pytest.mark.parametrize(("tall_pt", "smaller"), [(480.0, False), (540.0, True), (900.0, False)])
def test_only_what_nearly_fits_is_drawn_smaller(tall_pt: float, smaller: bool) -> None:
    """On 500 points: 480 fit, 540 fit a page that is a little larger, 900 take two pages."""
    found = squeezed(lambda _: _blocks(tall_pt), 100.0, 500.0)

    assert isinstance(found[0], Squeezed) is smaller
    assert SQUEEZES[-1] * 500.0 >= 540.0
