"""Batch: whether the pieces of a plate are better printed on several, told as a curve from few plates to many."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.job import Weights
from planner.schedule.risk.failure_cost import HOUR_S, Hazard, Risk, risk_of
from planner.schedule.risk.failure_ratio import FamilyRatio
from planner.schedule.risk.split_search import Counts, best_splits

Load = Callable[[Counts], tuple[float, float | None]]
"""Seconds (heat-up included) and grams of one plate with some pieces of each kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CurvePoint:
    """The best split into so many plates: ``most_n`` pieces on its fullest; times with the changes between plates."""

    plates_n: int
    most_n: int
    expected_s: float
    lost_g: float | None
    changes_n: int
    cost: float
    plates: tuple[Counts, ...]
    takes_s: tuple[float, ...]
    exact: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """The pieces of one plate: together, at best, and every number of plates between.

    ``kinds`` names the columns of the counts. ``best`` is the cheapest point of the curve; it is the whole plate where
    no split pays. ``together`` is None where the whole plate is longer than any time it may run in. ``hazard`` is the
    printer's, ``family`` what the pieces of the whole plate make of it; None: nothing.
    """

    kinds: tuple[str, ...]
    whole: Risk
    together: CurvePoint | None
    best: CurvePoint | None
    curve: tuple[CurvePoint, ...]
    hazard: Hazard
    family: FamilyRatio | None = None

    @property
    def per_hour(self) -> float:
        """Failures in an hour of the whole plate's printing."""
        return self.hazard.per_hour * (self.family.ratio if self.family else 1.0)

    @property
    def why(self) -> str:
        """Why it fails as often as that."""
        return self.family.why if self.family else "the printer's common rate: its profile names no kinds of pieces"

    @property
    def pays(self) -> bool:
        """Whether a split is cheaper than the whole plate, or the only way."""
        return self.best is not None and self.best.plates_n > 1

    @property
    def saved_s(self) -> float:
        """The expected time that the best split saves; 0 where the whole plate cannot run at all."""
        if self.best is None or self.together is None:
            return 0.0
        return self.together.expected_s - self.best.expected_s


def batch_of(
    kinds: Sequence[str],
    counts: Counts,
    load: Load,
    hazard: Hazard,
    *,
    longest_s: float = math.inf,
    weights: Weights | None = None,
    risk_by: Callable[[Counts], Risk] | None = None,
    ratio_by: Callable[[Counts], FamilyRatio] | None = None,
) -> Batch:
    """Weigh every number of plates for some pieces; a plate longer than ``longest_s`` may not be.

    ``risk_by`` gives a plate's risk where not all of it is lost when it fails; left out: all is. ``ratio_by`` says how
    much oftener than by ``hazard`` a plate with some of the pieces fails; what ``risk_by`` gives counts it already.
    """
    weights = weights or Weights()
    risks: dict[Counts, Risk] = {}

    def risk(plate: Counts) -> Risk:
        if plate not in risks:
            if risk_by is not None:
                risks[plate] = risk_by(plate)
            else:
                mine = hazard if ratio_by is None else hazard.times(ratio_by(plate).ratio)
                risks[plate] = risk_of(*load(plate), mine)
        return risks[plate]

    def cost(plate: Counts) -> float:
        one = risk(plate)
        if one.duration_s > longest_s:
            return math.inf
        hours = (one.expected_s + hazard.change_s) / HOUR_S
        return weights.per_hour * hours + weights.per_lost_g * (one.lost_g or 0.0) + weights.per_change

    last_change = weights.per_hour * hazard.change_s / HOUR_S + weights.per_change
    curve = []
    for split in best_splits(counts, cost):
        lost = [risk(plate).lost_g for plate in split.plates]
        changes = len(split.plates) - 1
        curve.append(
            CurvePoint(
                plates_n=len(split.plates),
                most_n=max(sum(plate) for plate in split.plates),
                expected_s=sum(risk(plate).expected_s for plate in split.plates) + changes * hazard.change_s,
                lost_g=None if None in lost else sum(each or 0.0 for each in lost),
                changes_n=changes,
                cost=split.cost - last_change,
                plates=split.plates,
                takes_s=tuple(risk(plate).duration_s for plate in split.plates),
                exact=split.exact,
            )
        )
    return Batch(
        kinds=tuple(kinds),
        whole=risk(counts),
        together=next((point for point in curve if point.plates_n == 1), None),
        best=min(curve, key=lambda point: (point.cost, point.plates_n), default=None),
        curve=tuple(curve),
        hazard=hazard,
        family=ratio_by(counts) if ratio_by else None,
    )
