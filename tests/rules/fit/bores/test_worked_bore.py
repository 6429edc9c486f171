"""What a bore measures after its work, worked out by hand."""

from __future__ import annotations

import pytest

from planner.job import HandWork
from planner.rules.fit.bores.worked_bore import WorkedBore


def _drill(to_mm: float) -> HandWork:
    """Return a drilling."""
    return HandWork(part="a", kind="drill", to_mm=to_mm, bores=("b1",))


def _bush(to_mm: float) -> HandWork:
    """Return a bush."""
    return HandWork(part="a", kind="bush", to_mm=to_mm, bores=("b1",))


@pytest.mark.parametrize(
    ("works", "printed", "finished", "cut", "wall"),
    [
        ((), 3.0, 3.0, 3.0, None),
        ((_drill(3.2),), 3.0, 3.2, 3.2, None),
        ((_drill(3.2),), 3.4, 3.4, 3.4, None),
        ((_drill(6.8), _bush(5.2)), 6.0, 5.2, 6.8, 0.8),
        ((_bush(5.2),), 6.0, 5.2, 6.0, 0.4),
    ],
)
def test_a_drill_widens_and_a_bush_narrows(
    works: tuple[HandWork, ...], printed: float, finished: float, cut: float, wall: float | None
) -> None:
    """A drill of less than the bore does nothing; a bush bored 5.2 in a bore of 6.8 has a wall of 0.8 mm."""
    worked = WorkedBore(works=works, bush_wall_mm=0.8)

    assert worked.finished_mm(printed) == pytest.approx(finished)
    assert worked.cut_mm(printed) == pytest.approx(cut)
    assert worked.least_wall_mm(printed) == (None if wall is None else pytest.approx(wall))
    assert worked.does(printed) is (finished != printed)
