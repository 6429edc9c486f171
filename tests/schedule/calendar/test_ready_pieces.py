"""Ready pieces: the same as work placed from every single minute."""

from __future__ import annotations

import numpy as np
import pytest

from planner.schedule import Step
from planner.schedule.calendar.ready_pieces import NEVER_MIN, ReadyPiece, ready_min_of, ready_pieces


@pytest.mark.parametrize("seed", range(30))
def test_pieces_say_for_every_minute_when_the_device_is_ready(seed: int) -> None:
    """Random hours, steps that wait for others, for hours to pass and for a fixed minute: each minute asked by itself."""
    rng = np.random.default_rng(seed)
    edges = np.sort(rng.choice(900, 12, replace=False)).tolist()
    attended = tuple(zip(edges[::2], edges[1::2], strict=True))
    steps = tuple(
        Step(
            name=str(k),
            takes_min=int(rng.integers(0, 60)),
            after=tuple(str(j) for j in range(k) if rng.random() < 0.5),
            wait_min=int(rng.integers(0, 90)),
            not_before_min=int(rng.integers(0, 400)) if rng.random() < 0.3 else 0,
        )
        for k in range(int(rng.integers(1, 4)))
    )
    pieces = ready_pieces(steps, attended, 0, 700)
    said = [p.ready_min + p.rises * (m - p.low_min) for p in pieces for m in range(p.low_min, p.high_min + 1)]

    assert said == [ready_min_of(steps, attended, minute) for minute in range(701)]


def test_an_hour_of_work_in_two_evenings_by_hand() -> None:
    """Evenings of five hours: up to minute 240 work ends an hour later, then the rest of it waits for the next one."""
    steps, attended = (Step(name="cord", takes_min=60),), ((0, 300), (1440, 1740))

    assert ready_pieces(steps, attended, 0, 1441) == [
        ReadyPiece(low_min=0, high_min=240, ready_min=60, rises=True),
        ReadyPiece(low_min=241, high_min=299, ready_min=1441, rises=True),
        ReadyPiece(low_min=300, high_min=1439, ready_min=1500, rises=False),
        ReadyPiece(low_min=1440, high_min=1441, ready_min=1500, rises=True),
    ]


def test_work_that_finds_no_time_is_never_ready() -> None:
    """Two hours of work in one hour of attendance."""
    (piece,) = ready_pieces((Step(name="cord", takes_min=120),), ((0, 60),), 0, 500)

    assert (piece.ready_min, piece.rises) == (NEVER_MIN, False)
