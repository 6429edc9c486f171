"""Split: on how many plates some pieces are best printed, exactly for few pieces and by local search for many."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

Counts = tuple[int, ...]
"""How many pieces of each kind."""
Cost = Callable[[Counts], float]
"""What one plate with these pieces costs, its change included; infinite where it may not be."""
EXACT_STEPS_N = 60_000
"""Up to so many steps every split is weighed: ten different pieces take 3^10 of them."""
TRIED_PLATES_N = 6
"""Beyond exact search, splits into up to so many plates are tried."""
TRIED_COSTS_N = 1_500
"""Beyond exact search, a split is improved until so many plates were weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Pieces on plates, the plate with most first; ``exact`` where no cheaper split into as many plates exists."""

    plates: tuple[Counts, ...]
    cost: float
    exact: bool


def best_splits(counts: Counts, cost: Cost) -> tuple[Split, ...]:
    """Return the cheapest split found for every number of plates, fewest first; those that may not be stay out.

    The best of all is the cheapest of these. ``cost`` is asked once for every plate that is weighed.
    """
    known: dict[Counts, float] = {}

    def weighed(plate: Counts) -> float:
        if plate not in known:
            known[plate] = cost(plate)
        return known[plate]

    if not sum(counts):
        return ()
    steps = math.prod((n + 1) * (n + 2) // 2 for n in counts)
    found = _exact(counts, weighed) if steps <= EXACT_STEPS_N else _searched(counts, weighed, known)
    return tuple(split for split in found if math.isfinite(split.cost))


def _exact(counts: Counts, cost: Cost) -> Iterator[Split]:
    """Weigh every split: the cheapest into k plates is a plate and the cheapest of the rest into k - 1."""
    most = sum(counts)
    best: dict[Counts, np.ndarray] = {(0,) * len(counts): np.array([0.0] + [math.inf] * most)}
    choice: dict[tuple[Counts, int], Counts] = {}
    for state in product(*(range(n + 1) for n in counts)):
        if state in best:
            continue
        first = next(kind for kind, n in enumerate(state) if n)
        row = np.full(most + 1, math.inf)
        for plate in product(*(range(1 if kind == first else 0, n + 1) for kind, n in enumerate(state))):
            rest = tuple(a - b for a, b in zip(state, plate, strict=True))
            total = cost(plate) + best[rest][:-1]
            for k in (int(index) + 1 for index in np.flatnonzero(total < row[1:])):
                choice[state, k] = plate
                row[k] = total[k - 1]
        best[state] = row
    for k in range(1, most + 1):
        plates, state = [], counts
        for left in range(k, 0, -1):
            if (state, left) not in choice:
                break
            plates.append(choice[state, left])
            state = tuple(a - b for a, b in zip(state, plates[-1], strict=True))
        yield Split(plates=_sorted(plates), cost=float(best[counts][k]), exact=True)


def _searched(counts: Counts, cost: Cost, known: dict[Counts, float]) -> Iterator[Split]:
    """Deal the pieces onto k plates, dearest first, then move and swap single pieces while that is cheaper."""
    alone = {kind: cost(_one(len(counts), kind)) for kind, n in enumerate(counts) if n}
    if not all(math.isfinite(each) for each in alone.values()):
        return  # a piece that may not be on a plate of its own may be on none
    pieces = [kind for kind in sorted(alone, key=lambda k: -alone[k]) for _ in range(counts[kind])]
    possible = False
    for k in range(1, len(pieces) + 1):
        if k > TRIED_PLATES_N and possible:  # more plates are only tried until some way is found at all
            return
        plates: list[Counts] = [(0,) * len(counts)] * k
        weight = [0.0] * k
        for kind in pieces:
            to = min(range(k), key=lambda i: (weight[i], i))
            plates[to] = _moved(plates[to], kind, 1)
            weight[to] += alone[kind]
        plates = _improved(plates, cost, known, len(known) + TRIED_COSTS_N // TRIED_PLATES_N)
        total = sum(cost(plate) for plate in plates) if all(any(plate) for plate in plates) else math.inf
        possible |= math.isfinite(total)
        yield Split(plates=_sorted(plates), cost=total, exact=k == 1)


def _improved(plates: list[Counts], cost: Cost, known: dict[Counts, float], most: int) -> list[Counts]:
    """Move one piece, or swap two, as long as that is better and the plates weighed stay within ``most``.

    It ends: every move makes less of one thing at least (plates that may not be, else unevenness while there are such
    plates, else cost) and more of none before it in that order.
    """
    better = True
    while better and len(known) < most:
        better = False
        for a, b in product(range(len(plates)), repeat=2):
            if a == b:
                continue
            barred = any(math.isinf(cost(plate)) for plate in plates)
            before = _worth(plates[a], plates[b], cost, barred=barred)
            for move in _moves(plates[a], plates[b]):
                if len(known) >= most:
                    return plates
                after = _worth(*move, cost, barred=barred)
                if after[:2] < before[:2] or (after[:2] == before[:2] and after[2] < before[2] - 1e-9):
                    plates[a], plates[b] = move
                    better = True
                    break
    return plates


def _worth(one: Counts, other: Counts, cost: Cost, *, barred: bool) -> tuple[int, int, float]:
    """Return how many of two plates may not be, how uneven they are while some plate may not be, and what they cost."""
    costs = cost(one), cost(other)
    uneven = sum(one) ** 2 + sum(other) ** 2 if barred else 0
    return sum(map(math.isinf, costs)), uneven, sum(each for each in costs if math.isfinite(each))


def _moves(one: Counts, other: Counts) -> Iterator[tuple[Counts, Counts]]:
    """Yield both plates after a piece goes from one to the other, and after two change places."""
    for kind, n in enumerate(one):
        if n and sum(one) > 1:
            yield _moved(one, kind, -1), _moved(other, kind, 1)
    for kind, back in product(range(len(one)), repeat=2):
        if kind < back and one[kind] and other[back]:
            yield _moved(_moved(one, kind, -1), back, 1), _moved(_moved(other, back, -1), kind, 1)


def _one(kinds_n: int, kind: int) -> Counts:
    """Return a single piece of a kind."""
    return tuple(int(k == kind) for k in range(kinds_n))


def _moved(plate: Counts, kind: int, by: int) -> Counts:
    """Return a plate with pieces of a kind more or fewer."""
    return tuple(n + by if k == kind else n for k, n in enumerate(plate))


def _sorted(plates: Sequence[Counts]) -> tuple[Counts, ...]:
    """Return plates in a fixed order, the one with most pieces first."""
    return tuple(sorted(plates, key=lambda plate: (-sum(plate), tuple(-n for n in plate))))
