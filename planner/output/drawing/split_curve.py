"""The trade-off of one plate as a curve: hours to a complete set against grams lost, from whole to ever more plates."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.schedule import Batch, CurvePoint

POINTS_MOST = 8
"""Beyond this many plates only changes are added."""
WIDE, HIGH = 420.0, 190.0
LEFT, RIGHT, TOP, BOTTOM = 52.0, 30.0, 16.0, 36.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitCurve:
    """A drawing, and the same in rows: plates, hours on average, grams lost on average, pieces on the fullest."""

    svg: str
    rows: tuple[tuple[int, float, float, int], ...]


def split_curve(batch: Batch) -> SplitCurve | None:
    """Return a plate's curve; None where it cannot be parted, or its grams are withheld.

    Expected times and losses are those of the batch (Young 1974, Daly 2006); the whole plate stands on the curve only
    where it may run in one go.
    """
    points = [
        p for p in batch.curve if p.lost_g is not None and math.isfinite(p.expected_s) and math.isfinite(p.lost_g)
    ]
    points = sorted(points, key=lambda point: point.plates_n)[:POINTS_MOST]
    if len(points) < 2:
        return None
    return SplitCurve(
        svg=_drawn(points),
        rows=tuple((p.plates_n, p.expected_s / 3600.0, p.lost_g or 0.0, p.most_n) for p in points),
    )


def _drawn(points: list[CurvePoint]) -> str:
    """Return the curve as SVG: a point a number of plates, that number beside it."""
    hours, grams = [p.expected_s / 3600.0 for p in points], [p.lost_g or 0.0 for p in points]
    x0, x1, y1 = min(hours), max(hours), max(grams) or 1.0
    span = max(x1 - x0, 1e-9)

    def at(hour: float, gram: float) -> tuple[float, float]:
        x = LEFT + (hour - x0) / span * (WIDE - LEFT - RIGHT)
        return x, TOP + (1.0 - gram / y1) * (HIGH - TOP - BOTTOM)

    places = [at(h, g) for h, g in zip(hours, grams, strict=True)]
    line = " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
    marks = "".join(
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{5 if p.plates_n == 1 else 3}"/>'
        f'<text x="{x + 7:.1f}" y="{y - 5:.1f}">{p.plates_n}</text>'
        for p, (x, y) in zip(points, places, strict=True)
    )
    floor = HIGH - BOTTOM
    axes = f'<path d="M{LEFT} {TOP}V{floor}H{WIDE - RIGHT}" fill="none" stroke="currentColor" stroke-width="1"/>'
    ends = (
        f'<text x="{LEFT}" y="{floor + 15}">{x0:.1f} h</text>'
        f'<text x="{WIDE - RIGHT}" y="{floor + 15}" text-anchor="end">{x1:.1f} h</text>'
        f'<text x="{(LEFT + WIDE - RIGHT) / 2}" y="{floor + 29}" text-anchor="middle">'
        "hours until all pieces are printed, on average</text>"
        f'<text x="{LEFT - 5}" y="{TOP + 8}" text-anchor="end">{y1:.1f} g</text>'
        f'<text x="{LEFT - 5}" y="{floor}" text-anchor="end">0 g</text>'
        f'<text x="{LEFT - 5}" y="{(TOP + floor) / 2 + 4}" text-anchor="end">lost</text>'
    )
    phrase = "Hours and grams lost by number of plates; the table has the same numbers"
    drawn = f'{axes}<polyline points="{line}" fill="none" stroke="currentColor" stroke-width="1.5"/>{marks}{ends}'
    return f'<svg class="trade" viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" aria-label="{phrase}">{drawn}</svg>'
