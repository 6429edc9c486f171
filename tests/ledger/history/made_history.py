"""A chapter's history as somebody would have told it: plates with hours and grams, failures, coupons with readings."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any

from planner.ledger import Event
from tests.ledger.telling import plate, tell

BORES_MM = (3.0, 4.0, 5.0, 6.0, 8.0)
START = datetime(2026, 1, 5, 18, 0)


def printer(name: str, **body: Any) -> Event:
    """Return a printer of the kind bench-220."""
    return tell("printer", name, START, profile="bench-220", attended=[], calibrated_until=None, **body)


def prints(
    job: str, on: str, ratios: Sequence[float | None], *, begin: datetime = START, days: float = 2.0, lot: str = ""
) -> list[Event]:
    """Return plates of two hours and 40 g on a printer, one every some days; a ratio of None is one that failed.

    Those that are done took the ratio times the planned hours and grams.
    """
    rows = [{**plate(f"{job}.{n}", jaw=1), "printer": on} for n in range(1, len(ratios) + 1)]
    events = [tell("plates", job, begin, plates=rows)]
    if lot:
        events += [tell("spool", f"S-{lot}", begin, material="petg", colour="green", lot=lot, printer=on)]
    spool = {"spool": f"S-{lot}"} if lot else {}
    for n, ratio in enumerate(ratios, 1):
        at = begin + timedelta(days=days * n)
        if ratio is None:
            events.append(tell("failed", f"{job}.{n}", at, cause="loose", ran_s=3600.0, **spool))
        else:
            events.append(tell("done", f"{job}.{n}", at, ran_s=7200.0 * ratio, used_g=40.0 * ratio, **spool))
    return events


def coupon(on: str, taken: date, upright_mm: float, **body: Any) -> Event:
    """Return a coupon whose upright bores print smaller by so much, and whose gaps of 0.15 mm fuse, of 0.2 do not."""
    bores = [
        {
            "feature": f"upright {d:g}",
            "kind": "upright",
            "drawn_mm": d,
            "inside_mm": d,
            "measured_mm": d - upright_mm + e,
        }
        for d, e in zip(BORES_MM, (0.01, -0.01, 0.0, 0.01, -0.01), strict=True)
    ]
    gaps = [
        {"feature": f"gap {d}", "kind": "gap", "drawn_mm": d, "inside_mm": d, "passed": d > 0.17}
        for d in (0.15, 0.2, 0.3)
    ]
    said = {"material": "petg", "nozzle_mm": 0.4, "until": "2999-01-01", "taken": taken.isoformat()}
    at = datetime.combine(taken, START.time())
    return tell("measured", on, at, readings=[*bores, *gaps], **{**said, **body})
