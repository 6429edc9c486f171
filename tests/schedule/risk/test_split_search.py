"""Splits: equal to brute force over all partitions of up to ten pieces, and never worse than the whole beyond."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import pytest

from planner.job import Weights
from planner.schedule import Counts, Hazard, batch_of, best_splits, risk_of


def _partitions(pieces: list[int]) -> Iterator[list[list[int]]]:
    """Yield every way to put pieces on plates (set partitions, by where the first piece lies; textbook)."""
    if not pieces:
        yield []
        return
    first, rest = pieces[0], pieces[1:]
    for parts in _partitions(rest):
        for index, part in enumerate(parts):
            yield [*parts[:index], [first, *part], *parts[index + 1 :]]
        yield [[first], *parts]


def _hazard(rng: np.random.Generator) -> Hazard:
    """Return a hazard of a good printer or a bad one."""
    return Hazard(per_hour=float(rng.uniform(0.005, 0.2)), change_s=float(rng.uniform(300, 2400)), heat_up_s=300.0)


def _layers(rng: np.random.Generator, kinds_n: int) -> np.ndarray:
    """Return seconds of every layer of each kind: pieces of different height, (kinds, 60)."""
    layers = rng.uniform(2.0, 200.0, (kinds_n, 60))
    for row in layers:
        row[rng.integers(5, 61) :] = 0.0
    return layers


@pytest.mark.parametrize("seed", range(8))
def test_the_choice_equals_brute_force_over_all_splits(seed: int) -> None:
    """Up to ten pieces of one kind or several, layer times shared as on a bed: best of all partitions, at every n."""
    rng = np.random.default_rng(seed)
    counts = tuple(int(n) for n in [(3, 2, 2), (8,), (1,) * 7, (4, 4), (2, 1, 1, 3), (7, 1), (5, 2, 1), (1,) * 8][seed])
    layers, hazard = _layers(rng, len(counts)), _hazard(rng)
    longest_s = float(rng.uniform(0.5, 1.2)) * np.maximum(np.array(counts) @ layers, 8.0).sum()
    weights = Weights(per_hour=1.0, per_lost_g=float(rng.choice([0.0, 0.02])), per_change=float(rng.choice([0, 0.2])))

    def load(plate: Counts) -> tuple[float, float]:
        return 300.0 + float(np.maximum(np.array(plate) @ layers, 8.0).sum()), 5.0 * sum(plate)

    batch = batch_of([f"k{i}" for i in range(len(counts))], counts, load, hazard, longest_s=longest_s, weights=weights)
    best: dict[int, float] = {}
    for parts in _partitions([kind for kind, n in enumerate(counts) for _ in range(n)]):
        total = -hazard.change_s / 3600 - weights.per_change
        for part in parts:
            seconds, grams = load(tuple(part.count(kind) for kind in range(len(counts))))
            risk = risk_of(seconds, grams, hazard)
            total += (
                (risk.expected_s + hazard.change_s) / 3600
                + weights.per_lost_g * (risk.lost_g or 0.0)
                + weights.per_change
            )
            total = total if seconds <= longest_s else math.inf
        best[len(parts)] = min(best.get(len(parts), math.inf), total)
    finite = {n: cost for n, cost in best.items() if math.isfinite(cost)}

    assert {point.plates_n: pytest.approx(point.cost) for point in batch.curve} == finite
    assert all(point.exact for point in batch.curve)
    assert (batch.best.cost if batch.best else math.inf) == pytest.approx(min(best.values()))


def test_ten_different_pieces_are_still_weighed_exactly() -> None:
    """Ten kinds of one piece each (115,975 partitions): exact, and equal to brute force on sums."""
    hours = [1.0, 2.0, 3.5, 0.5, 4.0, 2.5, 1.5, 3.0, 2.2, 0.7]

    def cost(plate: Counts) -> float:
        return math.expm1(0.08 * sum(n * h for n, h in zip(plate, hours, strict=True))) / 0.08 + 0.4

    found = min(best_splits((1,) * 10, cost), key=lambda split: split.cost)
    brute = min(
        sum(cost(tuple(int(i in part) for i in range(10))) for part in parts) for parts in _partitions(list(range(10)))
    )

    assert found.exact
    assert found.cost == pytest.approx(brute)


def test_the_known_example_of_four_short_plates() -> None:
    """20 h at 3 % an hour cost 27.4 h, four plates of 5 h cost 21.6 h: (e^(rate T) - 1)/rate, Daly (2006)."""
    batch = batch_of(["a"], (4,), lambda n: (n[0] * 18_000.0, None), Hazard(per_hour=0.03, change_s=0.0, heat_up_s=0.0))
    hours = [round(point.expected_s / 3600, 1) for point in batch.curve]

    assert (hours[0], hours[3]) == (27.4, 21.6)
    assert batch.pays
    assert batch.saved_s == pytest.approx(3600 * (27.404 - 21.578), rel=1e-3)


def test_many_pieces_are_split_well() -> None:
    """Beyond exact search a split is within 2 % of dynamic programming on one kind, and holds every piece."""
    rng = np.random.default_rng(3)
    hours = rng.uniform(0.2, 3.0, 14)

    def cost(plate: Counts) -> float:
        return math.expm1(0.06 * float(np.dot(plate, hours))) / 0.06 + 0.3

    counts = (2,) * 14
    found = best_splits(counts, cost)
    best = min(found, key=lambda split: split.cost)
    ideal = min(k * (math.expm1(0.06 * float(np.dot(counts, hours)) / k) / 0.06 + 0.3) for k in range(1, 7))

    assert tuple(np.sum(best.plates, axis=0)) == counts
    assert ideal - 1e-9 <= best.cost <= 1.02 * ideal  # by convexity no split into k plates beats equal ones
    assert not best.exact


def test_where_the_whole_plate_may_not_run_the_split_is_the_way() -> None:
    """A plate longer than the longest time allowed has no point of its own on the curve."""
    hazard = Hazard(per_hour=0.001, change_s=900.0, heat_up_s=0.0)
    batch = batch_of(["a"], (6,), lambda n: (n[0] * 3600.0, 1.0), hazard, longest_s=4 * 3600.0)

    assert batch.together is None
    assert batch.best is not None
    assert batch.best.plates_n == 2
    assert batch_of(["a"], (6,), lambda n: (n[0] * 3600.0, 1.0), hazard, longest_s=1800.0).best is None


@pytest.mark.parametrize("seed", [35, 36, 37])
def test_many_pieces_under_a_short_limit_come_to_an_end(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Some 60 pieces where most plates may not be: the search ends (it once went in circles), and no plate is too long."""
    rng = np.random.default_rng(seed)
    kinds_n = int(rng.integers(8, 12))
    counts = tuple(int(rng.integers(4, 9)) for _ in range(kinds_n))
    hours, limit_h, moves = rng.uniform(0.1, 2.5, kinds_n), float(rng.uniform(3.5, 6)), [0]

    def counted(plate: Counts, kind: int, by: int) -> Counts:
        moves[0] += 1
        assert moves[0] < 2_000_000, "it goes in circles"
        return tuple(n + by if k == kind else n for k, n in enumerate(plate))

    def takes_h(plate: Counts) -> float:
        return 0.2 + float(np.dot(plate, hours))

    def cost(plate: Counts) -> float:
        return math.inf if takes_h(plate) > limit_h else (math.exp(0.02 * takes_h(plate)) - 1) / 0.02 + 0.25

    monkeypatch.setattr("planner.schedule.risk.split_search._moved", counted)
    for split in best_splits(counts, cost):
        assert tuple(np.sum(split.plates, axis=0)) == counts
        assert max(map(takes_h, split.plates)) <= limit_h
