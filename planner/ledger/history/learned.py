"""Learned: hours, grams, failures and offsets by printer, material and lot, each partly pooled with all the others.

Nothing is learned of a number that nobody told. Where a printer drifts, only what came after counts for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import geometric_mean

import numpy as np
from sqlalchemy.engine import Engine

from planner.job import Printer
from planner.ledger.history.drifts import ToldDrift, drifts_of
from planner.ledger.history.told_coupons import ToldCoupon, told_coupons
from planner.ledger.history.told_prints import ToldPrint, told_prints
from planner.sourced import Sourced

RATIOS = ("time_ratio", "mass_ratio")
OFFSETS = ("upright_mm", "lying_mm", "least_gap_mm")
USUAL_RATIO = (0.0, 0.3, 0.2, 0.1)
"""Logarithms of real over planned: before a log 30 % either way; printers differ by 20 %, prints by 10 %; our choice,
no source."""
WITHIN_MM = 0.02
"""Coupons of one printer differ so much, beyond what calipers do; our choice, no source."""
MISSING = {
    "time_ratio": "hours: no print tells how long it took; tell it as fitwright done PLATE --took 3h20",
    "mass_ratio": "grams: no print was weighed; tell it as fitwright done PLATE --grams 41.5",
    "failure_per_hour": "failures: no print is over yet",
    "upright_mm": "offsets: no coupon's readings are told; tell them as fitwright measured PRINTER --readings FILE",
}
NEW = "a new one"


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """One number of one printer, material or lot with its 90 % interval.

    ``own`` is what its own history alone says, None where it has none; ``likely`` are the 10th and 90th percentile of
    the next print's value.
    """

    what: str
    by: str
    """printer, material or lot."""
    name: str
    material: str
    """Offsets of a printer hold for one material and one nozzle; empty for other numbers."""
    nozzle_mm: float | None
    told_n: int
    own: Sourced | None
    number: Sourced
    likely: tuple[float, float] | None
    last: date | None = None
    """When the last coupon of its own was taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """All that is learned: rows, drifts, and what nobody told."""

    rows: tuple[Learned, ...]
    drifts: tuple[ToldDrift, ...]
    missing: tuple[str, ...]


def learned(engine: Engine, printers: Mapping[str, Printer]) -> History:
    """Return what a ledger's history teaches; ``printers`` by name say what is usual, and which are to borrow."""
    prints, coupons = told_prints(engine), told_coupons(engine)
    drifts = drifts_of(prints, coupons)
    rows: list[Learned] = []
    for what in RATIOS:
        rows += _ratio_rows(what, prints, drifts, printers)
    rows += _failure_rows(prints, drifts, printers)
    for what in OFFSETS:
        rows += _offset_rows(what, coupons, drifts, printers)
    known = {row.what for row in rows}
    return History(
        rows=tuple(rows), drifts=drifts, missing=tuple(t for what, t in MISSING.items() if what not in known)
    )


def _since(what: str, printer: str, material: str, at: str, drifts: Iterable[ToldDrift]) -> bool:
    """Return whether what was told on a day counts for its printer: it does unless the printer drifted after it."""
    mine = [d for d in drifts if (d.what, d.printer) == (what, printer) and d.material in ("", material)]
    return all(at >= drift.since.isoformat() for drift in mine)


def _names(by: str, seen: Iterable[str], printers: Mapping[str, Printer]) -> list[str]:
    """Return the groups in order: all printers of the chapter and those that printed; materials and lots seen."""
    known = [*printers] if by == "printer" else []
    return list(dict.fromkeys([*known, *sorted(set(seen) - {""})]))


def _ratio_rows(
    what: str, prints: Sequence[ToldPrint], drifts: Sequence[ToldDrift], printers: Mapping[str, Printer]
) -> list[Learned]:
    """Return the ratios of hours or grams by printer, material and lot."""
    from planner.calibrate import Usual, pooled_means  # noqa: PLC0415  a second: an event need not wait for it

    told = [(one, float(np.log(ratio))) for one in prints if (ratio := getattr(one, what)) is not None]
    told = [(one, y) for one, y in told if _since(what, one.printer, one.material, one.at.date().isoformat(), drifts)]
    rows = []
    for by in ("printer", "material", "lot") if told else ():
        names = _names(by, (getattr(one, by) for one, _ in told), printers)
        values = [np.array([y for one, y in told if getattr(one, by) == name]) for name in names]
        pooled = pooled_means(values, [np.zeros(len(own)) for own in values], Usual(*USUAL_RATIO))
        for n, name in enumerate([*names, NEW]):
            own = values[n] if n < len(values) else np.zeros(0)
            ends = [float(np.exp(each[n])) for each in (pooled.low, pooled.value, pooled.high)]
            likely = float(np.exp(pooled.next_low[n])), float(np.exp(pooled.next_high[n]))
            alone = _measured([float(np.exp(own.mean()))] * 3, len(own), len(told)) if len(own) else None
            rows.append(_row(what, by, name, len(own), alone, _measured(ends, len(own), len(told)), likely=likely))
    return rows


def _failure_rows(
    prints: Sequence[ToldPrint], drifts: Sequence[ToldDrift], printers: Mapping[str, Printer]
) -> list[Learned]:
    """Return failures per hour by printer, material and lot."""
    from planner.calibrate import pooled_rates  # noqa: PLC0415  a second: an event need not wait for it

    what = "failure_per_hour"
    told = [one for one in prints if _since(what, one.printer, "", one.at.date().isoformat(), drifts)]
    usual = [printer.failure_per_hour for printer in printers.values()]
    if not told or not usual:
        return []
    middle, low, high = (geometric_mean(ends) for ends in zip(*((u.value, u.low, u.high) for u in usual), strict=True))
    before = Sourced(value=middle, low=low, high=high, kind="common-practice", source="profiles")
    rows = []
    for by in ("printer", "material", "lot"):
        names = _names(by, (getattr(one, by) for one in told), printers)
        mine = [[one for one in told if getattr(one, by) == name] for name in names]
        failed_n = np.array([sum(one.failed for one in own) for own in mine], dtype=np.float64)
        ran_h = np.array([sum(one.ran_h for one in own) for own in mine], dtype=np.float64)
        pooled = pooled_rates(failed_n, ran_h, before)
        for n, name in enumerate([*names, NEW]):
            own_n = len(mine[n]) if n < len(mine) else 0
            ends = [float(each[n]) for each in (pooled.low, pooled.value, pooled.high)]
            alone = _measured([failed_n[n] / ran_h[n]] * 3, own_n, len(told)) if own_n and ran_h[n] else None
            rows.append(_row(what, by, name, own_n, alone, _measured(ends, own_n, len(told))))
    return rows


def _offset_rows(
    what: str, coupons: Sequence[ToldCoupon], drifts: Sequence[ToldDrift], printers: Mapping[str, Printer]
) -> list[Learned]:
    """Return one offset by printer and by lot, each for one material and one nozzle, and by material for one nozzle."""
    told = [one for one in coupons if what in one.tells]
    told = [one for one in told if _since(what, one.printer, one.material, one.taken.isoformat(), drifts)]
    rows: list[Learned] = []
    for by in ("printer", "material", "lot") if printers else ():
        for material, nozzle_mm in sorted({("" if by == "material" else c.material, c.nozzle_mm) for c in told}):
            pool = [one for one in told if one.nozzle_mm == nozzle_mm and material in ("", one.material)]
            rows += _pool_rows(what, by, pool, material, printers)
    return rows


def _pool_rows(
    what: str, by: str, pool: Sequence[ToldCoupon], material: str, printers: Mapping[str, Printer]
) -> list[Learned]:
    """Return one offset by printer, material or lot, from coupons of one nozzle and one material (empty: of all)."""
    from planner.calibrate import Usual, pooled_means  # noqa: PLC0415  a second: an event need not wait for it

    names = _names(by, (getattr(one, by) for one in pool), printers)
    mine = [[one for one in pool if getattr(one, by) == name] for name in names]
    values = [np.array([one.tells[what][0] for one in own]) for own in mine]
    noise = [np.array([one.tells[what][1] for one in own]) for own in mine]
    pooled = pooled_means(values, noise, Usual(*_usual_offset(what, printers)))
    rows = []
    for n, (name, coupons) in enumerate(zip([*names, NEW], [*mine, []], strict=True)):
        own_n = len(coupons)
        ends = [max(0.0, float(each[n])) for each in (pooled.low, pooled.value, pooled.high)]
        alone = _measured([float(values[n].mean())] * 3, own_n, len(pool)) if coupons else None
        last = max((one.taken for one in coupons), default=None)
        number, nozzle_mm = _measured(ends, own_n, len(pool)), pool[0].nozzle_mm
        rows.append(_row(what, by, name, own_n, alone, number, material=material, nozzle_mm=nozzle_mm, last=last))
    return rows


def _usual_offset(what: str, printers: Mapping[str, Printer]) -> tuple[float, float, float, float]:
    """Return what is usual of an offset: the profiles' middle and their range, which is taken for 90 of 100."""
    numbers = [p.least_gap_mm if what == "least_gap_mm" else getattr(p.undersize, what) for p in printers.values()]
    middle = float(np.mean([number.value for number in numbers]))
    spread = max(WITHIN_MM, float(np.mean([number.high - number.low for number in numbers])) / (2 * 1.645))
    return middle, spread, spread, WITHIN_MM


def _measured(ends: Sequence[float], own_n: int, all_n: int) -> Sourced:
    """Return a measured number: low end, value, high end."""
    low, value, high = ends
    told = f"the chapter's ledger: {own_n} of its own, {all_n} in all, partly pooled"
    return Sourced(value=value, low=min(low, value), high=max(high, value), kind="measured", source=told)


def _row(
    what: str,
    by: str,
    name: str,
    told_n: int,
    own: Sourced | None,
    number: Sourced,
    *,
    likely: tuple[float, float] | None = None,
    material: str = "",
    nozzle_mm: float | None = None,
    last: date | None = None,
) -> Learned:
    """Return a row."""
    return Learned(
        what=what,
        by=by,
        name=name,
        material=material,
        nozzle_mm=nozzle_mm,
        told_n=told_n,
        own=own,
        number=number,
        likely=likely,
        last=last,
    )
