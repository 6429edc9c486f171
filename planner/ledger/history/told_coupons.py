"""Told coupons: by how much each measured coupon's bores came out smaller, and its least gap that did not fuse."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

import numpy as np
from sqlalchemy import select
from sqlalchemy.engine import Engine

from planner.ledger.tables import COUPON_READ

LEAST_N = 3
"""Fewer bores of a kind say nothing about an offset."""
CALIPERS_MM = 0.02
"""What calipers read to, either way; common practice, no source. As a standard deviation that is a share of sqrt(3):
JCGM 100:2008, 4.3.7."""
OFFSETS = ("upright", "lying")


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldCoupon:
    """One coupon: by what it tells (``upright_mm``, ``lying_mm``, ``least_gap_mm``) the value and its variance."""

    printer: str
    material: str
    nozzle_mm: float
    lot: str
    taken: date
    tells: Mapping[str, tuple[float, float]]


def told_coupons(engine: Engine) -> tuple[ToldCoupon, ...]:
    """Return every coupon whose readings were told, in the order in which they were taken."""
    with engine.begin() as db:
        rows = db.execute(select(COUPON_READ).order_by(COUPON_READ.c.taken, COUPON_READ.c.event)).all()
    return tuple(
        ToldCoupon(
            printer=row.printer,
            material=row.material,
            nozzle_mm=row.nozzle_mm,
            lot=row.lot,
            taken=date.fromisoformat(row.taken),
            tells=dict(_tells(row.readings)),
        )
        for row in rows
    )


def _tells(readings: list[dict[str, Any]]) -> list[tuple[str, tuple[float, float]]]:
    """Return what readings tell: offsets as means of their bores, the gap between what fused and what was open."""
    found = []
    for kind in OFFSETS:
        under = np.array(
            [r["inside_mm"] - r["measured_mm"] for r in readings if r["kind"] == kind and "measured_mm" in r]
        )
        if len(under) >= LEAST_N:
            variance = float(under.var(ddof=1)) / len(under) + CALIPERS_MM**2 / 3.0
            found.append((f"{kind}_mm", (float(under.mean()), variance)))
    gaps = [(r["drawn_mm"], r["passed"]) for r in readings if r["kind"] == "gap" and "passed" in r]
    fused_mm = max((size for size, came_out in gaps if not came_out), default=0.0)
    open_mm = min((size for size, came_out in gaps if came_out and size > fused_mm), default=None)
    if open_mm is not None:
        # it lies anywhere between the two: a rectangle's variance
        found.append(("least_gap_mm", (0.5 * (fused_mm + open_mm), (open_mm - fused_mm) ** 2 / 12.0)))
    return found
