"""Drifts: since when a printer prints smaller or larger, takes longer, lays more or fails more often, in words."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

import numpy as np

from planner.ledger.history.told_coupons import CALIPERS_MM, ToldCoupon
from planner.ledger.history.told_prints import ToldPrint
from planner.phrases import plural

if TYPE_CHECKING:
    from planner.calibrate import Drift

LEAST_RATIO_SPREAD = 0.01
"""Ratios of hours or grams scatter by a hundredth at least: clocks and kitchen scales; our choice, no source."""
SERIES = ("upright_mm", "lying_mm", "least_gap_mm", "time_ratio", "mass_ratio")
WORDS = {
    "upright_mm": ("prints upright bores {by} mm smaller", "prints upright bores {by} mm larger"),
    "lying_mm": ("prints horizontal bores {by} mm smaller", "prints horizontal bores {by} mm larger"),
    "least_gap_mm": ("fuses gaps up to {by} mm wider", "keeps gaps open that are {by} mm narrower"),
    "time_ratio": ("takes {by} times as long", "takes {by} times as long"),
    "mass_ratio": ("lays {by} times as much", "lays {by} times as much"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldDrift:
    """A drift of one printer in one material (empty: in all), and what is said of it.

    ``before`` and ``after`` are numbers of ``what``; ``change`` is in mm for offsets, else a ratio, with its 90 % ends.
    """

    printer: str
    material: str
    what: str
    since: date
    before: tuple[float, int]
    after: tuple[float, int]
    change: tuple[float, float, float]
    text: str


Told = tuple[date, float]
"""A value and the day on which it was told."""
Whose = tuple[str, str]
"""A printer and a material."""


def drifts_of(prints: Sequence[ToldPrint], coupons: Sequence[ToldCoupon]) -> tuple[ToldDrift, ...]:
    """Return every drift; the more series there are, the stronger one must be to be told."""
    from planner.calibrate import level_drifts  # noqa: PLC0415  a second: an event need not wait for it

    found: list[ToldDrift] = []
    for what in SERIES:
        ratio = what.endswith("_ratio")
        told = _ratios(what, prints) if ratio else _offsets(what, coupons)
        values = [np.array([value for _, value in series]) for series in told.values()]
        least = LEAST_RATIO_SPREAD if ratio else CALIPERS_MM / np.sqrt(3.0)
        for drift in level_drifts(values, float(least)):
            whose = list(told)[drift.series]
            found.append(_told(what, whose, told[whose][drift.first][0], drift))
    return (*found, *_of_failures(prints))


def _ratios(what: str, prints: Iterable[ToldPrint]) -> dict[Whose, list[Told]]:
    """Return the logarithms of a ratio by printer and material, in their order."""
    found: dict[Whose, list[Told]] = {}
    for one in prints:
        ratio = getattr(one, what)
        if ratio is not None:
            found.setdefault((one.printer, one.material), []).append((one.at.date(), float(np.log(ratio))))
    return found


def _offsets(what: str, coupons: Iterable[ToldCoupon]) -> dict[Whose, list[Told]]:
    """Return an offset by printer, material and nozzle, in the order in which the coupons were taken."""
    found: dict[tuple[str, str, float], list[Told]] = {}
    for one in coupons:
        if what in one.tells:
            found.setdefault((one.printer, one.material, one.nozzle_mm), []).append((one.taken, one.tells[what][0]))
    # a printer's nozzles are series of their own; the one that was measured most often tells
    most: dict[Whose, list[Told]] = {}
    for (printer, material, _), series in found.items():
        if len(series) > len(most.get((printer, material), ())):
            most[printer, material] = series
    return most


def _told(what: str, whose: Whose, since: date, drift: Drift) -> ToldDrift:
    """Return a change of level with its sentence."""
    printer, material = whose
    before, after, change = drift.before, drift.after, drift.change
    if what.endswith("_ratio"):
        before, after = (float(np.exp(before[0])), before[1]), (float(np.exp(after[0])), after[1])
        low, middle, high = (float(np.exp(end)) for end in change)
        by, span = f"{middle:.2f}", f"{low:.2f} to {high:.2f}"
        change, more, far = (low, middle, high), middle > 1.0, "{:.2f} times the plan"
    else:
        low, middle, high = change
        ends = sorted((abs(low), abs(high)))
        by, span = f"{abs(middle):.2f}", f"{ends[0]:.2f} to {ends[1]:.2f} mm"
        more, far = middle > 0.0, "{:.2f} mm"
    said = WORDS[what][0 if more else 1].format(by=by)
    levels = f"{far.format(after[0])} over {after[1]}, {far.format(before[0])} over {before[1]} before"
    text = f"{printer} {said} since {_month(since)} ({material}: {levels}; 90 %: {span}): look at the printer"
    return ToldDrift(
        printer=printer,
        material=material,
        what=what,
        since=since,
        before=before,
        after=after,
        change=change,
        text=text,
    )


def _of_failures(prints: Sequence[ToldPrint]) -> list[ToldDrift]:
    """Return the printers that fail more or less often than before, parted where a month begins."""
    from planner.calibrate import rate_drifts  # noqa: PLC0415  a second: an event need not wait for it

    names = sorted({one.printer for one in prints})
    mine = {name: [one for one in prints if one.printer == name] for name in names}
    series = []
    for own in mine.values():
        months = [(one.at.year, one.at.month) for one in own]
        cuts = [n for n in range(1, len(own)) if months[n] != months[n - 1]]
        hours = np.array([one.ran_h for one in own])
        series.append((hours, np.array([float(one.failed) for one in own]), cuts))
    found = []
    for drift in rate_drifts(series):
        name = names[drift.series]
        since = mine[name][drift.first].at.date().replace(day=1)
        low, middle, high = drift.change
        counts = f"{plural(drift.after[1], 'failure')}, {drift.before[1]} before"
        rates = f"{drift.after[0]:.3f} an hour after {drift.before[0]:.3f}"
        said = f"fails {middle:.1f} times as often" if drift.before[1] else "fails, which it did not before,"
        text = f"{name} {said} since {_month(since)} ({counts}; {rates}; 90 %: {low:.1f} to {high:.1f} times)"
        found.append(
            ToldDrift(
                printer=name,
                material="",
                what="failure_per_hour",
                since=since,
                before=drift.before,
                after=drift.after,
                change=drift.change,
                text=f"{text}: look at the printer",
            )
        )
    return found


def _month(day: date) -> str:
    """Return a month as people say it."""
    return f"{month_name[day.month]} {day.year}"
