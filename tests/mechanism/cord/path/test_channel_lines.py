"""The order in which a path counts channels."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.job import Cord, read_job
from planner.mechanism.cord.path.channel_lines import POINTS_MOST, channel_lines
from planner.survey import Channel
from tests.mechanism.cord.path.known_parts import bore, survey_of


def test_straight_ones_come_first_by_number_then_curved_ones_thinned(heron: Path) -> None:
    """b2 before b10, though it was found later, and a curved one of 40 points keeps its ends and its turning."""
    line = tuple((float(k), 0.0, 30.0) for k in range(40))
    curved = Channel(diameter_mm=2.0, length_mm=39.0, bends_deg=70.0, line_mm=line, at_mm=line[20])
    found = survey_of("deck", (bore(10, 5.0, 0.0, 0.0, 2.0, 8.0), bore(2, 9.0, 0.0, 0.0, 2.0, 8.0)), (curved,))
    cord = Cord(name="pull", part="deck", diameter_mm=1.0, channel_mm=2.0)
    lines = channel_lines(read_job(heron), cord, found, [])

    assert [one.name for one in lines] == ["b2", "b10", ""]
    assert lines[0].line_mm == ((9.0, 0.0, -4.0), (9.0, 0.0, 4.0))
    assert lines[2].bends_deg == pytest.approx(70.0)
    assert (len(lines[2].line_mm), lines[2].line_mm[0], lines[2].line_mm[-1]) == (POINTS_MOST, line[0], line[-1])
