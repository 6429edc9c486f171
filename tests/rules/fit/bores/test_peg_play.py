"""The play of a peg at a scale, by hand: bore times its scale, less what the printer takes, less peg times its own."""

from __future__ import annotations

import pytest

from planner.job import HandWork
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.sourced import Sourced

OFF = Sourced(value=0.2, low=0.1, high=0.3, kind="common-practice", source="test")
REAMED = WorkedBore(works=(HandWork(part="a", kind="ream", to_mm=8.2, bores=("b1",)),))


@pytest.mark.parametrize(
    ("work", "factors", "s", "play_mm"),
    [
        (WorkedBore(), (None, None), 1.2, 8.5 * 1.2 - 0.2 - 8.0 * 1.2),
        (WorkedBore(), (1.0, None), 1.2, 8.5 - 0.2 - 8.0 * 1.2),
        (WorkedBore(), (None, 1.0), 1.2, 8.5 * 1.2 - 0.2 - 8.0),
        (REAMED, (None, None), 0.9, 8.2 - 8.0 * 0.9),
        (REAMED, (None, None), 1.2, 8.5 * 1.2 - 0.2 - 8.0 * 1.2),
    ],
)
def test_play_at_a_scale(
    work: WorkedBore, factors: tuple[float | None, float | None], s: float, play_mm: float
) -> None:
    """A reamer widens only what prints narrower than it; a part with a scale of its own stays."""
    play = PegPlay(bore_mm=8.5, peg_mm=8.0, work=work, undersize_mm=OFF, bore_factor=factors[0], peg_factor=factors[1])

    assert play.at(s) == pytest.approx(play_mm)
    for wanted in (0.1, 0.2):
        assert all(
            any(play.at(turn, off) == pytest.approx(wanted) for off in (0.1, 0.2, 0.3)) or work.works
            for turn in play.turns(wanted)
        )
