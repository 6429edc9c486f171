"""The print log: planned against real hours and grams, failures and their causes, and what follows for the next plan.

A table in CSV that a person can keep by hand, one line a plate: ``plate, planned_h, real_h, planned_g, real_g,
outcome, cause, failed_at_h, pieces, lost``; ``outcome`` is done or failed; ``pieces`` counts those on the plate, or
names them as ``jaw:4 cap:2``; ``lost`` names those that had to be printed again likewise; empty cells are not known.
"""

from __future__ import annotations

import csv
import io
import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from planner.errors import ProfileError, nearest
from planner.sourced import Sourced

COLUMNS = ("plate", "planned_h", "real_h", "planned_g", "real_g", "outcome", "cause", "failed_at_h", "pieces", "lost")
NEEDED = ("plate", "outcome")
LEAST_N = 5
"""Before five logged plates the usual 30 % stand; common practice, no source."""
PRIOR_FAILURES = 1.0
"""The prior: as if one failure had been seen in as many hours as the printer's profile expects for one."""
RECENT_N, DRIFT_P = 5, 0.05
"""The last five plates against those before, by Mann and Whitney's test, tell of a drift at this level."""
SCRAP_SHARE, SCRAP_PIECES = 0.15, 10.0
"""The prior of scrap: 15 % of pieces, as if ten had been seen; 41 % of prints failed in an open workshop (Song and
Telenko 2019), so the start is never 0."""
DIGITS_MOST = 6
"""A count of more digits is a slip: nobody prints a million pieces."""
FAR = 20.0
"""A ratio beyond this, or under its inverse, is a slip of the unit or of the column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """One logged plate; None where a cell is empty."""

    plate: str
    planned_h: float | None
    real_h: float | None
    planned_g: float | None
    real_g: float | None
    failed: bool
    cause: str
    failed_at_h: float | None
    pieces_n: float | None = None
    lost: tuple[tuple[str, int], ...] = ()
    on: tuple[tuple[str, int], ...] = ()
    """What lay on the plate, by part; empty where the log gives a number alone."""

    @property
    def hours(self) -> float:
        """How long the printer ran: to its end, or to its failure."""
        return next((h for h in (self.failed_at_h if self.failed else None, self.real_h, self.planned_h) if h), 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """What a log says; a ratio is None before five plates tell it."""

    prints_n: int
    hours: float
    failed_n: int
    time_ratio: Sourced | None
    mass_ratio: Sourced | None
    failure_per_hour: Sourced
    causes: tuple[tuple[str, int], ...]
    scrap_share: Sourced | None
    """Pieces that had to be printed again over pieces printed; None where no plate tells its pieces."""
    notes: tuple[str, ...]


def read_log(path: Path) -> tuple[Print, ...]:
    """Read a log.

    Raises
    ------
    ProfileError
        It cannot be read, a column is not known or missing, or a cell cannot be.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as problem:
        told = getattr(problem, "strerror", None) or "it is not UTF-8 text"
        raise ProfileError(where=str(path), wrong=f"it cannot be read ({told})", todo="check the path") from None
    dialect = ";" if text.split("\n", 1)[0].count(";") > text.split("\n", 1)[0].count(",") else ","
    rows = list(csv.reader(io.StringIO(text), delimiter=dialect, skipinitialspace=True))
    head = [name.strip().lower() for name in rows[0]] if rows else []
    for name in head:
        if name not in COLUMNS:
            raise ProfileError(where=path.name, wrong=f"no column is called '{name}'", todo=nearest(name, COLUMNS))
    for name in NEEDED:
        if name not in head:
            raise ProfileError(
                where=path.name, wrong=f"the column {name} is missing", todo=f"begin with: {', '.join(COLUMNS)}"
            )
    lines = ((number, row) for number, row in enumerate(rows[1:], 2) if any(cell.strip() for cell in row))
    return tuple(
        _print(dict(zip(head, (cell.strip() for cell in row), strict=False)), f"{path.name} line {number}")
        for number, row in lines
    )


def logged(prints: Sequence[Print], failure_per_hour: Sourced, source: str) -> Logged:
    """Return the median ratios with their 10th and 90th percentiles, the failure rate, and what drifts.

    Failures come at a constant rate per hour: with a Gamma prior of shape 1 and the profile's mean, k failures in T
    hours give a Gamma of shape 1 + k and rate 1/mean + T (conjugate; textbook), here with its 90 % interval.
    """
    from scipy import stats  # noqa: PLC0415  half a second to load, for those who need it

    notes: list[str] = []
    hours = sum(one.hours for one in prints)
    failed = [one for one in prints if one.failed]
    shape, rate = PRIOR_FAILURES + len(failed), PRIOR_FAILURES / failure_per_hour.value + hours
    low, high = (float(stats.gamma.ppf(q, shape, scale=1.0 / rate)) for q in (0.05, 0.95))
    return Logged(
        prints_n=len(prints),
        hours=hours,
        failed_n=len(failed),
        time_ratio=_ratio([(p.real_h, p.planned_h) for p in prints if not p.failed], "hours", source, notes),
        mass_ratio=_ratio([(p.real_g, p.planned_g) for p in prints if not p.failed], "grams", source, notes),
        failure_per_hour=Sourced(
            value=shape / rate, low=min(low, shape / rate), high=high, kind="measured", source=source
        ),
        scrap_share=_scrap(prints, source),
        causes=tuple(Counter(one.cause or "not said" for one in failed).most_common()),
        notes=tuple(notes),
    )


def _scrap(prints: Sequence[Print], source: str) -> Sourced | None:
    """Return the share of scrap with its 90 % interval: a Beta prior and a count of pieces (conjugate; textbook)."""
    from scipy import stats  # noqa: PLC0415  half a second to load, for those who need it

    told = [one for one in prints if one.pieces_n]
    if not told:
        return None
    lost = min(sum(n for one in told for _, n in one.lost), sum(one.pieces_n or 0.0 for one in told))
    good = sum(one.pieces_n or 0.0 for one in told) - lost
    bad = SCRAP_SHARE * SCRAP_PIECES + lost
    fine = (1.0 - SCRAP_SHARE) * SCRAP_PIECES + good
    low, high = (float(stats.beta.ppf(q, bad, fine)) for q in (0.05, 0.95))
    middle = bad / (bad + fine)
    return Sourced(value=middle, low=min(low, middle), high=max(high, middle), kind="measured", source=source)


def lost_pieces(text: str, where: str) -> tuple[tuple[str, int], ...]:
    """Read ``"jaw:1 cap:2"``; a name alone is one piece.

    Raises
    ------
    ProfileError
        Where a count is no whole number of 1 or more.
    """
    found: dict[str, int] = {}
    for word in text.replace(",", " ").split():
        name, _, count = word.rpartition(":") if ":" in word else (word, "", "1")
        if not (name and count.isdecimal() and len(count) <= DIGITS_MOST and int(count) >= 1):
            told = word if len(word) < 40 else word[:37] + "…"
            raise ProfileError(where=where, wrong=f"'{told}' names no pieces", todo="write them as jaw:1")
        found[name] = found.get(name, 0) + int(count)
    return tuple(found.items())


def _ratio(
    pairs: Sequence[tuple[float | None, float | None]], what: str, source: str, notes: list[str]
) -> Sourced | None:
    """Return the median of real over planned with P10 and P90, and tell a drift of the last five."""
    from scipy import stats  # noqa: PLC0415  half a second to load, for those who need it

    ratios = np.array([real / planned for real, planned in pairs if real and planned])
    if len(ratios) < LEAST_N:
        notes.append(f"{what}: {len(ratios)} finished plates have both values, but {LEAST_N} are needed; ± 30 % stays")
        return None
    low, middle, high = np.quantile(ratios, [0.1, 0.5, 0.9])
    if len(ratios) >= 2 * RECENT_N:
        test = stats.mannwhitneyu(ratios[-RECENT_N:], ratios[:-RECENT_N])
        if test.pvalue < DRIFT_P:
            now, before = float(np.median(ratios[-RECENT_N:])), float(np.median(ratios[:-RECENT_N]))
            took = f"the last {RECENT_N} plates took {now:.2f} times the planned value, those before {before:.2f} times"
            notes.append(f"{what}: {took}: look at the printer")
    told = f"{source}, n = {len(ratios)}"
    return Sourced(value=float(middle), low=float(low), high=float(high), kind="measured", source=told)


def _print(cells: dict[str, str], where: str) -> Print:
    """Read one line."""
    outcome = cells.get("outcome", "").lower()
    if outcome not in ("done", "failed"):
        raise ProfileError(where=where, wrong=f"the outcome '{outcome}' is not known", todo="write done or failed")
    pieces = cells.get("pieces", "")
    on = lost_pieces(pieces, where) if any(letter.isalpha() for letter in pieces) else ()
    found = Print(
        plate=cells.get("plate", ""),
        planned_h=_number(cells, "planned_h", where),
        real_h=_number(cells, "real_h", where),
        planned_g=_number(cells, "planned_g", where),
        real_g=_number(cells, "real_g", where),
        failed=outcome == "failed",
        cause=cells.get("cause", ""),
        failed_at_h=_number(cells, "failed_at_h", where),
        pieces_n=float(sum(n for _, n in on)) if on else _number(cells, "pieces", where),
        lost=lost_pieces(cells.get("lost", ""), where),
        on=on,
    )
    for what, real, planned in (("hours", found.real_h, found.planned_h), ("grams", found.real_g, found.planned_g)):
        if real and planned and not found.failed and not 1 / FAR < real / planned < FAR:
            raise ProfileError(
                where=where, wrong=f"{real:g} {what} for {planned:g} planned cannot be", todo="check units and columns"
            )
    return found


def _number(cells: dict[str, str], key: str, where: str) -> float | None:
    """Read one number that cannot be negative; None where the cell is empty."""
    text = cells.get(key, "").replace(",", ".")
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not (math.isfinite(value) and value >= 0):
        raise ProfileError(
            where=where, wrong=f"{key} '{text}' is not a number of 0 or more", todo="write hours as 3.5, grams as 120"
        )
    return value
