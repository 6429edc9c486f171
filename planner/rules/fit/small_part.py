"""Small parts: what fits the cylinder of 16 CFR 1501 can be swallowed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray

from planner.finding import Finding, Verdict
from planner.rules.fit.part_case import PartCase
from planner.rules.rule import Rule, positive
from planner.survey import bed_frame, circle_mm

CYLINDER_MM = 31.75
"""Bore of the test cylinder: 1.25 in (16 CFR 1501.4)."""
DEEPEST_MM = 57.15
"""Its deepest depth: 2.25 in; the floor slopes up to 1.00 in, which is left out here, on the careful side."""
DIRECTIONS_N = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSmall:
    """``part.small``: for a child under three, or where things go into the mouth, a small part is a hold."""

    part: str
    most: float
    """Largest scale at which the part may fit the cylinder."""
    rule: str = "part.small"
    feature: str = "small part"

    def at(self, s: float) -> Finding:
        """Judge the part's size at a scale."""
        small = s <= self.most
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.HOLD if small else Verdict.GO,
            measured=100.0 * s,
            limit=100.0 * self.most,
            unit="%",
            why=f"{self.part} {'may fit' if small else 'does not fit'} the small-parts cylinder "
            f"(31.75 mm wide, up to 57.15 mm deep); it may do so up to {100 * self.most:.1f} %",
            remedy="ask a clinician; make the part larger or join it to another" if small else "",
            source="16 CFR 1501.4",
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the part just fits the cylinder."""
        return positive(self.most)


def small_rules(case: PartCase) -> list[Rule]:
    """Bind the rule to a part where a child under three uses the device, or things go into the mouth."""
    use = case.job.use
    age, young = use.recipient_age_years, case.job.limits.small_age_years.value
    if not use.mouthing and (age is None or age >= young):
        return []
    return [PartSmall(part=case.part.name, most=largest_small(case.sized.hull_mm))]


def largest_small(hull_mm: NDArray[np.float64]) -> float:
    """Return the largest factor at which a hull may fit the cylinder in some direction of a dense sample."""
    return _largest_small(np.ascontiguousarray(hull_mm, dtype=np.float64).tobytes())


@lru_cache(maxsize=1024)
def _largest_small(hull: bytes) -> float:
    """Remember the answer: a hull stays the same under every answer and every remedy that is tried.

    The directions are asked in the order of what they may reach at most: no circle around a shadow is narrower than
    the shadow is along an axis.
    """
    hull_mm, frames = np.frombuffer(hull).reshape(-1, 3), _frames()
    spans = np.array([np.ptp(hull_mm @ frame.T, axis=0) for frame in frames])
    tall = DEEPEST_MM / np.maximum(spans[:, 2], 1e-9)
    reach = np.minimum(CYLINDER_MM / np.maximum(spans[:, :2].max(axis=1), 1e-9), tall)
    best = 0.0
    for index in np.argsort(-reach):
        if reach[index] <= best:
            break
        wide = circle_mm((hull_mm @ frames[index].T)[:, :2])
        best = max(best, float(min(CYLINDER_MM / max(wide, 1e-9), tall[index])))
    return best


@cache
def _frames() -> NDArray[np.float64]:
    """Return frames that look down the directions of a Fibonacci lattice on the half sphere."""
    index = np.arange(DIRECTIONS_N) + 0.5
    z = index / DIRECTIONS_N
    angle = np.pi * (1.0 + 5.0**0.5) * index
    radius = np.sqrt(1.0 - z**2)
    ways = zip(radius * np.cos(angle), radius * np.sin(angle), z, strict=True)
    return np.array([bed_frame((float(x), float(y), float(up))) for x, y, up in ways])
