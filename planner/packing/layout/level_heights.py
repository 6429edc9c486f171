"""Low with low: of two plates of one group, one becomes as short as can be, so that it frees the printer sooner.

A plate takes about as many layers as its highest piece has, and a long run is lost as a whole when it fails; high
pieces together on one plate leave short plates for the others. Never more plates, never early risks later.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import combinations

from planner.packing.layout.packed_unit import Layout, Unit
from planner.packing.search.bed_filling import FRONT
from planner.packing.search.corner_fill import COARSE_N, FINE_DEG, Filler
from planner.packing.search.effort import Effort

PAIRS_MOST = 24
"""Pairs of plates that are tried in all, those that differ most first."""
LEVEL_S = 2.0
"""No pair is begun after this effort; the first is always tried."""
LEAST_MM = 0.5
"""Less is not worth another layout."""
Worth = Callable[[Sequence[Layout]], tuple[float, float, float]]


def levelled(filler: Filler, plates: Sequence[Layout], heights_mm: Mapping[str, float], worth: Worth) -> list[Layout]:
    """Return plates with high units together and low ones together, where that needs no more plates.

    ``heights_mm`` is by part; ``worth`` gives number of plates and early risks on late plates first: neither gets
    worse. Units that a rule binds together stay where they are.
    """
    rows, tried_n, filler = [dict(plate) for plate in plates], 0, filler.spending(Effort(LEVEL_S))
    while tried_n < PAIRS_MOST:
        pairs = combinations(range(len(rows)), 2)
        gains = sorted((-_gain_most(filler, rows[i], rows[j], heights_mm), i, j) for i, j in pairs)
        better = None
        for gain, i, j in gains[: PAIRS_MOST - tried_n]:
            if -gain <= LEAST_MM or better is not None or (tried_n and not filler.effort.goes_on):
                break
            tried_n += 1
            ways = _ways(filler, rows, i, j, heights_mm)
            better = next((found for found in ways if _better(rows, found, filler, heights_mm, worth)), None)
        if better is None:
            return rows
        rows = better
    return rows


def height_of(unit: Unit, heights_mm: Mapping[str, float]) -> float:
    """Return the height of the highest copy of a unit."""
    return max(heights_mm[part] for (part, _), _ in unit.copies)


def heights_sum(filler: Filler, plates: Sequence[Layout], heights_mm: Mapping[str, float]) -> float:
    """Return the sum of the heights of all plates: what is less when plates are level."""
    return sum(max((height_of(filler.units[k], heights_mm) for k in plate), default=0.0) for plate in plates)


def _gain_most(filler: Filler, one: Layout, other: Layout, heights_mm: Mapping[str, float]) -> float:
    """Return how much lower the lower of two plates could become at most."""
    all_of = sorted(height_of(filler.units[k], heights_mm) for k in (*one, *other))
    return heights_sum(filler, [one, other], heights_mm) - all_of[-1] - all_of[0]


def _ways(
    filler: Filler, rows: Sequence[Layout], i: int, j: int, heights_mm: Mapping[str, float]
) -> list[list[Layout]]:
    """Return the plates with two of them laid out again, the high units on one of them; none where that fails."""
    pool = [*rows[i], *rows[j]]
    if any(filler.units[k].bundle is not None for k in pool):
        return []
    order = sorted(pool, key=lambda k: (-height_of(filler.units[k], heights_mm), -filler.units[k].area_mm2, k))
    high = _filled(filler, order, COARSE_N)
    rest = [k for k in order if k not in high]
    low = _filled(filler, sorted(rest, key=lambda k: (-filler.units[k].area_mm2, k)), len(FINE_DEG))
    if not high or not low or len(low) < len(rest):
        return []
    found = []
    for a, b in ((high, low), (low, high)):
        new = [dict(row) for row in rows]
        new[i], new[j] = a, b
        found.append(new)
    return found


def _filled(filler: Filler, order: Sequence[int], turns_n: int) -> Layout:
    """Return one bed filled with units in an order."""
    return filler.filled(filler.empty_floor(), {}, order, turns_n=turns_n, score=FRONT)


def _better(
    rows: Sequence[Layout], found: Sequence[Layout], filler: Filler, heights_mm: Mapping[str, float], worth: Worth
) -> bool:
    """Return whether plates are lower, and no worse in number and in early risks."""
    if worth(found)[:2] > worth(rows)[:2]:
        return False
    return heights_sum(filler, found, heights_mm) < heights_sum(filler, rows, heights_mm) - LEAST_MM
