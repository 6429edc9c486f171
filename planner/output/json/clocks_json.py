"""Risk, batches and clocks of a plan as plain JSON types."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import datetime

from planner.plan import CouponFirst, ends_at
from planner.schedule import Batch, Clocks, Counts, CurvePoint, StepRun, Way

FORMULA = "(1/rate + change) (e^(rate T) - 1): Young 1974, Daly 2006"
FORMULA_MARKED = f"{FORMULA}; from mark to mark after failures that the printer goes on after"


def batch_json(batch: Batch) -> dict[str, object]:
    """Return what a plate gets beside its layout: its risk, and whether a split would pay, as a curve."""
    whole = batch.whole
    return {
        "risk": {
            "failure_percent": whole.failure_percent,
            "expected_s": _finite(whole.expected_s),
            "expected_lost_g": _finite(whole.lost_g),
            "per_hour": batch.per_hour,
            "per_hour_ratio": [batch.family.low, batch.family.ratio, batch.family.high] if batch.family else None,
            "why": batch.why,
            "formula": FORMULA if batch.hazard.goes_on is None else FORMULA_MARKED,
        },
        "split": {
            "pays": batch.pays,
            "needed": batch.together is None,
            "saved_s": _finite(batch.saved_s),
            "plates": [_pieces(batch.kinds, plate) for plate in batch.best.plates] if batch.best else [],
            "curve": [_point(point) for point in batch.curve],
        },
    }


def _point(point: CurvePoint) -> dict[str, object]:
    """Return one number of plates."""
    return {
        "plates": point.plates_n,
        "most_pieces": point.most_n,
        "expected_s": _finite(point.expected_s),
        "lost_g": _finite(point.lost_g),
        "changes": point.changes_n,
        "exact": point.exact,
    }


def _pieces(kinds: Sequence[str], plate: Counts) -> dict[str, int]:
    """Return the pieces of a plate by part."""
    return {kind: n for kind, n in zip(kinds, plate, strict=True) if n}


def _finite(value: float | None) -> float | None:
    """Return a number, or null for what is not known or never ends."""
    return value if value is not None and math.isfinite(value) else None


def coupon_json(first: CouponFirst | None) -> dict[str, object] | None:
    """Return what is printed and measured before the plates; null where nothing is."""
    if first is None:
        return None
    return {
        "why": first.why,
        "printer": first.printer,
        "material": first.material,
        "duration_s": first.duration_s,
        "mass_g": first.mass_g.value,
        "start": moment_json(first.start),
        "end": moment_json(first.end),
        "measured": moment_json(first.measured),
        "mesh": "coupon/coupon.stl",
        "readings": "coupon/readings.toml",
    }


def clocks_json(clocks: Clocks | None) -> dict[str, object] | None:
    """Return the three clocks; null without a calendar."""
    if clocks is None:
        return None
    table, play = clocks.table, clocks.table.played
    return {
        "printing_s": clocks.printing_s,
        "hands_on_min": clocks.hands_min,
        "start": table.start.isoformat(),
        "printed": moment_json(table.finish),
        "printed_expected": moment_json(table.at(play.expected_min)) if table.runs else None,
        "printed_p90": moment_json(table.at(play.p90_min)) if table.runs else None,
        "ready": moment_json(clocks.ready),
        "ready_p90": moment_json(clocks.ready_p90),
        "ready_expected": moment_json(clocks.ready_expected),
        "deadline_kept_percent": clocks.kept_percent,
        "plays": play.plays_n,
        "tonight": table.first_start,
        "overrun_percent": {str(plate): share for plate, share in play.overrun_percent.items()},
        "bound_min": table.answer.bound_min,
        "gap_percent": table.answer.gap_percent,
        "steps": [_step(run, clocks) for run in clocks.steps or ()],
        "ways_out": ways_json(clocks.ways),
        "spools": [
            {
                "plate": feed.plate,
                "feeds": [{"spool": reel.name, "colour": reel.colour, "left_g": reel.left_g} for reel in feed.reels],
                "ends_after_s": [60.0 * end for end in feed.ends_min],
                "be_there": [moment_json(when) for when in ends_at(clocks.table, feed)],
                "unattended": feed.unattended,
                "short_g": feed.short_g,
            }
            for feed in clocks.feeds
        ],
        "printers": list(clocks.barred),
        "notes": list(table.notes),
    }


def ways_json(ways: Sequence[Way]) -> list[dict[str, object]]:
    """Return ways out, best first."""
    return [
        {
            "what": way.what,
            "ready": moment_json(way.ready),
            "late_days": way.late_days,
            "without_time": way.unmet_n,
            "costs": way.costs,
            "solved": way.solved,
        }
        for way in ways
    ]


def _step(run: StepRun, clocks: Clocks) -> dict[str, object]:
    """Return one step of the hands' work."""
    step = run.step
    return {
        "name": step.name,
        "minutes": step.takes_min,
        "wait_min": step.wait_min,
        "start": moment_json(clocks.table.at(run.start_min)),
        "end": moment_json(clocks.table.at(run.end_min)),
        "slack_min": clocks.leeways[step.name].slack_min,
        "why": step.why,
    }


def moment_json(when: datetime | None) -> str | None:
    """Return a moment as text."""
    return when.isoformat() if when else None
