"""The window of sizes as bars on one common scale."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.output.words.size_words import interval_words, reach_words
from planner.size import MeasureScale, Reach, Window

Place = Callable[[float], float]
"""From a percent to a place on the chart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A bar on the common scale, in percent of its width, with its ends in words."""

    left_percent: float
    width_percent: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the window chart."""

    name: str
    go: tuple[Band, ...]
    workable: tuple[Band, ...]
    text: str
    """The sizes that work, after some work too."""
    go_text: str
    """The sizes that work as they are; empty where that waits for the same answers as ``text``."""
    low: str
    high: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The window chart: its scale's ends in percent, ticks as (place, label), the job's own size, and its rows.

    ``person`` are the sizes that fit the person, ``asked`` the place of each size that a measure asks for, with words.
    """

    low_percent: float
    high_percent: float
    ticks: tuple[tuple[float, str], ...]
    here_percent: float
    rows: tuple[Row, ...]
    person: tuple[Band, ...] = ()
    asked: tuple[tuple[float, str], ...] = ()


def window_chart(
    window: Window, parts: Sequence[Window], percent: float, measures: Sequence[MeasureScale] = ()
) -> Chart:
    """Return all windows on one scale that holds every end near the job's size, and what the measures ask for."""
    ends = [e for w in (window, *parts) for i in w.workable.intervals for e in (i.low_percent, i.high_percent) if e]
    near = [e for e in (*ends, *(m.percent for m in measures)) if 0.4 * percent <= e <= 1.9 * percent]
    low = max(10.0 * int(min([*near, 0.8 * percent]) / 10.0), 2.0)  # no rule is asked about nothing
    high = 10.0 * (int(max([*near, 1.2 * percent]) / 10.0) + 1)
    step = 10.0 if high - low <= 100 else 20.0

    def place(value: float) -> float:
        return 100.0 * (min(max(value, low), high) - low) / (high - low)

    ticks = []
    value = low
    while value <= high + 1e-9:
        ticks.append((place(value), f"{value:.0f}"))
        value += step
    rows = [_row("the whole device", window, place), *(_row(part.part, part, place) for part in parts)]
    return Chart(
        low_percent=low,
        high_percent=high,
        ticks=tuple(ticks),
        here_percent=place(percent),
        rows=tuple(rows),
        person=() if window.person is None else _bands(window.person, place),
        asked=tuple((place(m.percent), f"{m.name}: {m.percent:.1f} %") for m in measures if low <= m.percent <= high),
    )


def _row(name: str, window: Window, place: Place) -> Row:
    """Return one line of the chart."""
    nearest = window.workable.nearest
    low = nearest.low_cause.why if nearest and nearest.low_cause else ""
    high = nearest.high_cause.why if nearest and nearest.high_cause else ""
    if nearest is None and window.workable.causes:
        low = window.workable.causes[0].why
    return Row(
        name=name,
        go=_bands(window.go, place),
        workable=_bands(window.workable, place),
        text=reach_words(window.workable),
        go_text=_go_words(window),
        low=low,
        high=high,
    )


def _go_words(window: Window) -> str:
    """Return the sizes that work as they are."""
    if window.go.intervals:
        return reach_words(window.go)
    return "not as it is" if window.workable.intervals else ""


def _bands(reach: Reach, place: Place) -> tuple[Band, ...]:
    """Return the intervals of a reach as bars."""
    bands = []
    for interval in reach.intervals:
        left, right = place(interval.low_percent or 0.0), place(interval.high_percent or 1e9)
        bands.append(Band(left_percent=left, width_percent=max(right - left, 0.4), text=interval_words(interval)))
    return tuple(bands)
