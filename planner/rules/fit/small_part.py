"""Small parts: what fits the cylinder of 16 CFR 1501 can be swallowed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray

from planner.finding import Finding, Verdict
from planner.job import Hardware, Job
from planner.rules.fit.part_case import PartCase
from planner.rules.rule import Rule, positive
from planner.survey import bed_frame, circle_mm

CYLINDER_MM = 31.75
"""Bore of the test cylinder: 1.25 in (16 CFR 1501.4)."""
DEEPEST_MM = 57.15
"""Its deepest depth: 2.25 in; the floor slopes up to 1.00 in, which is left out here, on the careful side."""
CYLINDER = "the small-parts cylinder (31.75 mm wide, up to 57.15 mm deep)"
DIRECTIONS_N = 400
LOOPS = ("belt",)
"""Bought pieces that are no small part: a belt is a loop of some length."""


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
            why=f"{self.part} may be a small part: at sizes up to {100 * self.most:.1f} % it may fit inside {CYLINDER}"
            if small
            else f"{self.part} is no small part at this size: it does not fit inside {CYLINDER}; at sizes up to "
            f"{100 * self.most:.1f} % it may",
            remedy="ask a clinician; make the part larger or join it to another" if small else "",
            source="16 CFR 1501.4",
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the part just fits the cylinder."""
        return positive(self.most)


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareSmall:
    """``part.small`` for bought pieces: a screw, nut, washer, pin or bearing that comes loose is a small part, too."""

    part: str
    feature: str
    alone_mm: float | None
    """Least length at 100 %, where nothing shorter is bagged with it; None where that is not known, or is there."""
    rule: str = "part.small"

    def at(self, s: float) -> Finding:
        """Judge the length of the piece at a scale: it is as long as the stack that grows with the device."""
        small = self.alone_mm is None or self.alone_mm * s <= DEEPEST_MM
        loose = "it, its nut or its washer may fit" if self.alone_mm is None else "it fits"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.HOLD if small else Verdict.GO,
            why=f"if {self.feature} comes loose, {loose} inside {CYLINDER}"
            if small
            else f"{self.feature} is too long to fit inside {CYLINDER}",
            remedy="ask a clinician; lock it or glue it in, and test by pull and twist that it stays" if small else "",
            source="16 CFR 1501.4",
        )

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the piece is as long as the cylinder is deep."""
        return positive(DEEPEST_MM / self.alone_mm) if self.alone_mm else ()


def small_hardware(job: Job) -> list[Rule]:
    """Bind the rule to every bought piece where a child under the age uses the device, or things go into the mouth."""
    if not asks_small(job):
        return []
    return [
        HardwareSmall(part=one.joins[0] if one.joins else "", feature=one.name, alone_mm=_alone_mm(one))
        for one in job.hardware
        if not one.printed and one.kind not in LOOPS and one.diameter_mm <= CYLINDER_MM
    ]


def _alone_mm(hardware: Hardware) -> float | None:
    """Return the least length of a piece with which nothing shorter comes; None for all others."""
    bare = hardware.kind in ("dowel-pin", "wood-screw") or (hardware.kind == "machine-screw" and hardware.washers == 0)
    return hardware.stack_mm if bare and not hardware.nut and not hardware.washers else None


def asks_small(job: Job) -> bool:
    """Return whether the job says that small parts matter."""
    age = job.use.recipient_age_years
    return job.use.mouthing or (age is not None and age < job.limits.small_age_years.value)


def small_rules(case: PartCase) -> list[Rule]:
    """Bind the rule to a part where a child under three uses the device, or things go into the mouth."""
    if not asks_small(case.job):
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
