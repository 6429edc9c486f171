"""From readings to a printer's own offsets, each with a 95 % interval."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.calibrate.coupon import LEAN_HIGH_MM, FeatureKind
from planner.calibrate.coupon_readings import Reading
from planner.sourced import Sourced

LEVEL = 0.95
LEAST_N = 3
"""Fewer bores give no interval worth the name."""
CALIPER_MM = 0.02
"""An offset is never known better than calipers read; common practice, no source."""
SLOPE_P = 0.01
"""Only a slope this unlikely to be chance is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """What a coupon says; None where too little was read, with the reason in ``notes``.

    ``scales_percent`` are measured over drawn along x, y and z, with the interval that calipers allow.
    """

    upright_mm: Sourced | None
    lying_mm: Sourced | None
    pin_mm: Sourced | None
    least_wall_mm: Sourced | None
    least_gap_mm: Sourced | None
    bridge_mm: Sourced | None
    """Longest span that came out."""
    lean_deg: Sourced | None
    """Steepest lean from vertical that came out."""
    scales_percent: dict[str, Sourced]
    notes: tuple[str, ...]


def fitted(readings: Sequence[Reading], source: str) -> Fitted:
    """Fit offsets to the readings of one coupon or of several."""
    notes: list[str] = []
    scales = {}
    for kind, axis in (("along-x", "x"), ("along-y", "y"), ("height", "z")):
        shares = [
            100.0 * r.measured_mm / r.feature.drawn_mm for r in readings if r.feature.kind == kind and r.measured_mm
        ]
        if shares:
            drawn = next(r.feature.drawn_mm for r in readings if r.feature.kind == kind)
            middle, slack = float(np.mean(shares)), 100.0 * CALIPER_MM / drawn
            scales[axis] = Sourced(
                value=middle, low=middle - slack, high=middle + slack, kind="measured", source=source
            )
    return Fitted(
        upright_mm=offset_mm(readings, "upright", source, notes),
        lying_mm=offset_mm(readings, "lying", source, notes),
        pin_mm=offset_mm(readings, "pin", source, notes, least_n=2),
        least_wall_mm=_threshold(readings, "wall", source, notes),
        least_gap_mm=_threshold(readings, "gap", source, notes),
        bridge_mm=_most(readings, "bridge", source, notes),
        lean_deg=_lean(_most(readings, "overhang", source, notes)),
        scales_percent=scales,
        notes=tuple(notes),
    )


def offset_mm(
    readings: Sequence[Reading], kind: FeatureKind, source: str, notes: list[str], least_n: int = LEAST_N
) -> Sourced | None:
    """Return the mean of drawn less measured, with Student's 95 % interval of the mean (textbook; scipy's t).

    A slope over the diameter is told where it is not chance, and then the range reaches over all that was measured.
    """
    from scipy import stats  # noqa: PLC0415  half a second to load, for those who need it

    pairs = [
        (r.feature.inside_mm, r.measured_mm) for r in readings if r.feature.kind == kind and r.measured_mm is not None
    ]
    if len(pairs) < least_n:
        notes.append(f"{kind}: {len(pairs)} readings, but {least_n} are needed: kept as it was")
        return None
    size = np.array([inside for inside, _ in pairs])
    under = np.array([inside - measured for inside, measured in pairs])
    middle, spread = float(under.mean()), float(under.std(ddof=1))
    half = float(stats.t.ppf(0.5 + LEVEL / 2, len(pairs) - 1)) * spread / np.sqrt(len(pairs))
    low, high = middle - half, middle + half
    if len(pairs) > 3 and np.ptp(size) > 1.0 and spread > 0:
        line = stats.linregress(size, under)
        if line.pvalue < SLOPE_P:
            ends = line.intercept + line.slope * np.array([size.min(), size.max()])
            low, high = min(low, float(ends.min())), max(high, float(ends.max()))
            notes.append(
                f"{kind}: the offset changes by {line.slope:+.3f} mm per mm of diameter; the range covers that"
            )
    return Sourced(value=middle, low=low, high=high, kind="measured", source=source)


def _threshold(readings: Sequence[Reading], kind: FeatureKind, source: str, notes: list[str]) -> Sourced | None:
    """Return the least size from which on all came out; it lies between the largest failure and that size."""
    tried = sorted((r.feature.drawn_mm, r.passed) for r in readings if r.feature.kind == kind and r.passed is not None)
    good = [size for size, passed in tried if passed and all(p for s, p in tried if s >= size)]
    if not good:
        notes.append(f"{kind}: none came out, or none was read; kept as it was")
        return None
    failed = [size for size, passed in tried if not passed]
    if any(passed for size, passed in tried if failed and size < max(failed)):
        notes.append(f"{kind}: a smaller one came out although a larger one did not; the larger decides")
    least = min(good)
    return Sourced(value=least, low=max(failed, default=0.0), high=least, kind="measured", source=source)


def _most(readings: Sequence[Reading], kind: FeatureKind, source: str, notes: list[str]) -> Sourced | None:
    """Return the largest size up to which all came out; it lies between that and the smallest failure."""
    tried = sorted((r.feature.drawn_mm, r.passed) for r in readings if r.feature.kind == kind and r.passed is not None)
    failed = min((size for size, passed in tried if not passed), default=None)
    good = [size for size, passed in tried if passed and (failed is None or size < failed)]
    if not good:
        notes.append(f"{kind}: none came out, or none was read")
        return None
    most = max(good)
    return Sourced(value=most, low=most, high=failed if failed is not None else most, kind="measured", source=source)


def _lean(reach: Sourced | None) -> Sourced | None:
    """Return the lean in degrees of a reach over the wedges' height."""
    if reach is None:
        return None
    value, low, high = (math.degrees(math.atan(mm / LEAN_HIGH_MM)) for mm in (reach.value, reach.low, reach.high))
    return replace(reach, value=value, low=low, high=high)
