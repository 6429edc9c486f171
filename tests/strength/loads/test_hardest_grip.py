"""The hardest grip: what the job wants, or what the pull that can be kept up builds up."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from planner.strength.loads.hardest_grip import hardest_grip


@pytest.mark.parametrize(
    ("hardest_n", "told"),
    [
        ((), (15.0, "15 N of grip at the tip")),
        ((12.0,), (15.0, "15 N of grip at the tip")),
        ((12.0, 40.0), (40.0, "24 N of pull at the hand, 40.0 N of grip at the tip")),
    ],
)
def test_the_hardest_of_all_cords_counts_where_it_is_more_than_is_wanted(
    hardest_n: tuple[float, ...], told: tuple[float, str]
) -> None:
    """15 N are wanted; cords that grip harder at the pull that can be kept up are judged by that."""
    job: Any = SimpleNamespace(use=SimpleNamespace(grip_n=15.0, pull_n=50.0, hang_n=99.0))
    cords = [SimpleNamespace(grip_for_n=(24.0, 1.0, 2.0, 3.0, one)) for one in hardest_n]
    movement: Any = SimpleNamespace(cords_at=lambda _: SimpleNamespace(cords=cords))

    assert hardest_grip(job, movement, 99.0) == told


def test_where_nobody_measured_the_pull_a_cord_holds_what_hangs_at_the_tip() -> None:
    """20 N hang there, 15 N of grip are wanted: nothing says that the hand yields before 20 N."""
    job: Any = SimpleNamespace(use=SimpleNamespace(grip_n=15.0, pull_n=None, hang_n=20.0))
    assert hardest_grip(job, None, 99.0) == (20.0, "20 N of grip at the tip")
