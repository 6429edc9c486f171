"""Families: which kinds of piece make plates fail more often than the common rate, as a log shows.

Clayton and Kaldor (1987, Biometrics 43:671): counts are Poisson with the expected number times a ratio, and the ratios
come from a Gamma of mean 1; the estimate (seen + a)/(expected + a) shrinks to the common rate where little was seen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.calibrate.print_log import Print
from planner.sourced import Sourced

SHAPE = 2.0
"""The prior's shape a: as if two failures had been expected and two seen; our choice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyRisk:
    """One kind of piece: its failures seen and expected at the common rate, and the ratio with its 90 % interval."""

    name: str
    seen_n: float
    expected_n: float
    ratio: Sourced


def family_risks(
    prints: Sequence[Print], per_hour: float, source: str, families: Mapping[str, str] | None = None
) -> tuple[FamilyRisk, ...]:
    """Return the ratio of every kind of piece that the log counts, by name; ``families`` puts names together.

    A plate's expected failures, its hours times the common rate, are dealt over its pieces; a failed plate is dealt
    over the pieces that were lost. Plates that do not say what lay on them tell nothing, nor do failed ones that do not
    say what was lost: those fall on all their pieces alike.
    """
    named = families or {}
    seen: dict[str, float] = {}
    expected: dict[str, float] = {}
    for one in prints:
        total = sum(n for _, n in one.on)
        if not total:
            continue
        for name, n in one.on:
            family = named.get(name, name)
            expected[family] = expected.get(family, 0.0) + per_hour * one.hours * n / total
        blamed = [(name, n) for name, n in one.lost if name in dict(one.on)] or list(one.on)
        for name, n in blamed if one.failed else ():
            family = named.get(name, name)
            seen[family] = seen.get(family, 0.0) + n / sum(each for _, each in blamed)
    return tuple(_risk(name, seen.get(name, 0.0), expected[name], source) for name in sorted(expected))


def _risk(name: str, seen_n: float, expected_n: float, source: str) -> FamilyRisk:
    """Return the posterior of one ratio: Gamma of shape a + seen and rate a + expected (conjugate; textbook)."""
    from scipy import stats  # noqa: PLC0415  half a second to load, for those who need it

    shape, rate = SHAPE + seen_n, SHAPE + expected_n
    low, high = (float(stats.gamma.ppf(q, shape, scale=1.0 / rate)) for q in (0.05, 0.95))
    told = f"{source}: {seen_n:.1f} failures, {expected_n:.1f} expected"
    return FamilyRisk(
        name=name,
        seen_n=seen_n,
        expected_n=expected_n,
        ratio=Sourced(value=shape / rate, low=low, high=high, kind="measured", source=told),
    )
