"""Several plans at once: what a chapter must buy and print for all of its recipients together."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from planner.finding import Verdict
from planner.job import kind_of
from planner.output.chapter_page.reels import reels_json
from planner.output.chapter_page.waiting import slack_days, waits_for
from planner.output.json.clocks_json import moment_json, ways_json
from planner.output.json.ledger_json import ledger_json
from planner.output.json.plan_json import Json
from planner.plan import Chapter, Leads, Plan, Purchase, buy_list, late_by_lead
from planner.schedule import Limits

Ids = Mapping[str, Mapping[int, str]]
"""Ids of plates in a ledger, by folder and number."""
SPOOL_G = 1000.0
"""A full spool; common practice, no source."""


def chapter_json(
    plans: Mapping[str, Plan],
    note: str = "",
    unread: Mapping[str, str] | None = None,
    ids: Ids | None = None,
    changes: Sequence[Json] = (),
    *,
    chapter: Chapter | None = None,
    running: Sequence[dict[str, Any]] = (),
    bought: Mapping[str, float] | None = None,
    leads: Leads | None = None,
    now: datetime | None = None,
) -> Json:
    """Return the sums over several plans, by folder name; each recipient's plates stay apart.

    ``unread`` says by path what is wrong with jobs that could not be read: each holds the chapter. ``ids`` are
    those that plates have in a ledger, by folder and number; ``changes`` what is otherwise than it was told there;
    ``running`` the plates that run. ``chapter`` tells who works on what, and what limits them all. ``bought`` is the
    stock by name, ``leads`` the days of delivery; ``now`` is the moment that the plan is made at, by default this one.

    Where the spools that are left do not feed all jobs together, the chapter is on hold though each job alone goes.
    """
    grams, ledger = _grams(plans), ledger_json(plans)
    at = now or datetime.now().replace(microsecond=0)  # noqa: DTZ005  a job runs on local time
    bound = chapter.limits if chapter else None
    buys = buy_list(plans, bought or {}, leads or Leads(), at.date())
    late = _late(plans, chapter, buys, at)
    schedule, hands, runs = _schedule(plans, ids or {}), _hands(chapter, plans), [_running(row) for row in running]
    held = bool(unread) or bound is not None or bool(chapter and chapter.unmet_hands)
    held |= any("by_lead" in row for row in late)
    verdicts = [plan.verdict for plan in plans.values()]
    verdicts += [Verdict.HOLD] * (held or any(row["short_g"] for row in ledger["spools"]))
    seconds = sum(plan.totals.duration_s.value for plan in plans.values() if plan.totals.duration_s)
    return {
        "schema": "fitwright/chapter/1",
        "verdict": max(verdicts, key=lambda v: v.severity, default=Verdict.GO).value,
        "planned_at": at.isoformat(),
        "jobs": [
            _job(folder, plan) | _waiting(folder, plan, schedule, hands, runs, chapter)
            for folder, plan in plans.items()
        ],
        "unread": [{"path": path, "why": why} for path, why in (unread or {}).items()],
        "filament": [
            {
                "material": material,
                "colour": colour,
                "mass_g": mass_g,
                "spools": math.ceil(mass_g / SPOOL_G),
                "spool_g": SPOOL_G,
            }
            for (material, colour), mass_g in sorted(grams.items())
        ],
        "late": [{key: row[key] for key in ("job", "days", "why")} for row in late],
        "bottleneck": _bottleneck(bound),
        "running": runs,
        "schedule": schedule,
        "hands": hands,
        "buy": [_purchase(row, plans) for row in buys],
        "reels": reels_json(plans, ids or {}),
        "schedule_note": note,
        "changes": list(changes),
        "coupons": _coupons(plans),
        **ledger,
        "totals": {
            "plates": sum(len(plan.plates) for plan in plans.values()),
            "duration_s": seconds,
            "hours": seconds / 3600.0,
            "mass_g": sum(grams.values()),
            "hands_on_min": sum(plan.clocks.hands_min for plan in plans.values() if plan.clocks),
            "cost_delivered": _costs(plans),
        },
        "withheld": [f"{folder}: {plan.totals.withheld}" for folder, plan in plans.items() if plan.totals.withheld],
    }


def _waiting(
    folder: str,
    plan: Plan,
    schedule: Sequence[Json],
    hands: Sequence[Json],
    running: Sequence[Json],
    chapter: Chapter | None,
) -> Json:
    """Return what a job waits for, and its slack."""
    code = plan.job.recipient or folder
    waits = waits_for(
        plan,
        [row for row in schedule if row["folder"] == folder],
        [row for row in hands if row["job"] == code],
        [row for row in running if row["job"] == code],
        chapter.unmet_hands.get(folder, "") if chapter else "",
    )
    return {"waits_for": waits, "slack_days": slack_days(plan)}


def _purchase(row: Purchase, plans: Mapping[str, Plan]) -> Json:
    """Return one line of what is to be bought."""
    return {
        "item": row.item,
        "n": row.n,
        "unit": row.unit,
        "by": row.by.isoformat() if row.by else None,
        "order_by": row.order_by.isoformat() if row.order_by else None,
        "slack_days": row.slack_days,
        "need_n": row.need_n,
        "have_n": row.have_n,
        "jobs": [_code(folder, plans) for folder in row.jobs],
    }


def _code(folder: str, plans: Mapping[str, Plan]) -> str:
    """Return what people call a job: its recipient's code, else its folder."""
    return plans[folder].job.recipient or folder


def _bottleneck(bound: Limits | None) -> Json | None:
    """Return what limits the chapter, with what one more of each would buy; null where nothing does."""
    if bound is None:
        return None
    buys = [{"what": buy.what, "days": buy.days, "devices": buy.devices} for buy in bound.buys]
    return {"what": bound.what, "short": bound.short, "buys": buys}


def _running(row: dict[str, Any]) -> Json:
    """Return a plate that runs."""
    return {
        "plate": row["id"],
        "job": row["job"],
        "printer": row["printer"],
        "spool": row["spool"] or None,
        "start": moment_json(row["start"]),
        "end": moment_json(row["end"]),
    }


def _hands(chapter: Chapter | None, plans: Mapping[str, Plan]) -> list[Json]:
    """Return who does what when."""
    return [
        {
            "person": row.person,
            "job": _code(row.folder, plans),
            "step": row.step,
            "start": moment_json(row.start),
            "end": moment_json(row.end),
        }
        for row in (chapter.hands if chapter else ())
    ]


def _late(
    plans: Mapping[str, Plan], chapter: Chapter | None, buys: tuple[Purchase, ...], now: datetime
) -> list[dict[str, Any]]:
    """Return the jobs that are not ready by their deadline, with the days (None: no date at all) and why.

    Those that are late only because something comes too late say so under ``by_lead``.
    """
    rows: list[dict[str, Any]] = []
    waits = late_by_lead(plans, buys, now.date())
    unmet = chapter.unmet_hands if chapter else {}
    for folder, plan in plans.items():
        clocks, calendar = plan.clocks, plan.job.calendar
        if clocks is None or calendar is None or calendar.deadline is None:
            continue
        days = None if clocks.ready is None else (clocks.ready.date() - calendar.deadline).days
        if days is None or days > 0:
            whys = [finding.why for finding in plan.findings if kind_of(finding.rule).late]
            why = unmet.get(folder) or next(iter(whys), "it has no date")
            rows.append({"job": _code(folder, plans), "days": days, "why": why})
        elif folder in waits:
            days, why = waits[folder]
            rows.append({"job": _code(folder, plans), "days": days, "why": why, "by_lead": True})
    return sorted(rows, key=lambda row: (row["days"] is not None, -(row["days"] or 0), row["job"]))


def _grams(plans: Mapping[str, Plan]) -> dict[tuple[str, str], float]:
    """Return the grams of every material and colour over all plates."""
    grams: dict[tuple[str, str], float] = {}
    for plate in (plate for plan in plans.values() for plate in plan.plates):
        if plate.mass_g is not None:
            key = plate.group.material, plate.group.colour
            grams[key] = grams.get(key, 0.0) + plate.mass_g.value
    return grams


def _costs(plans: Mapping[str, Plan]) -> dict[str, float]:
    """Return what all delivered devices cost, by currency."""
    costs: dict[str, float] = {}
    for cost in (plan.cost for plan in plans.values() if plan.cost):
        costs[cost.currency] = costs.get(cost.currency, 0.0) + cost.delivered.value
    return costs


def _job(folder: str, plan: Plan) -> Json:
    """Return one job's row."""
    totals, clocks = plan.totals, plan.clocks
    return {
        "folder": folder,
        "job": plan.job.name,
        "recipient": plan.job.recipient or None,
        "verdict": plan.verdict.value,
        "scale_percent": plan.scale_percent,
        "plates": len(plan.plates),
        "duration_s": totals.duration_s.value if totals.duration_s else None,
        "mass_g": totals.mass_g.value if totals.mass_g else None,
        "cost_delivered": plan.cost.delivered.value if plan.cost else None,
        "deadline": _deadline(plan),
        "ready": moment_json(clocks.ready) if clocks else None,
        "ready_p90": moment_json(clocks.ready_p90) if clocks else None,
        "deadline_kept_percent": clocks.kept_percent if clocks else None,
        "hands_on_min": clocks.hands_min if clocks else None,
        "ways_out": ways_json(clocks.ways) if clocks else [],
    }


def _schedule(plans: Mapping[str, Plan], ids: Ids) -> list[Json]:
    """Return the plates of all jobs in the order in which they start, those without a time last."""
    rows = [
        (run.start is None, run.start or datetime.min, folder, run.plate, run)  # noqa: DTZ901  only an order
        for folder, plan in plans.items()
        for run in plan.runs
    ]
    return [
        {
            "folder": folder,
            "job": plans[folder].job.name,
            "plate": plate,
            "id": ids.get(folder, {}).get(plate),
            "printer": run.printer,
            "spool": _spools_of(plans[folder], plate),
            "short_g": _short_g(plans[folder], plate),
            "start": moment_json(run.start),
            "end": moment_json(run.end),
            "reason": run.reason,
        }
        for _, _, folder, plate, run in sorted(rows, key=lambda row: row[:4])
    ]


def _spools_of(plan: Plan, plate: int) -> str | None:
    """Return what feeds a plate, in order; None where spools are not counted."""
    feeds = plan.clocks.feeds if plan.clocks else ()
    return next((", ".join(reel.name for reel in feed.reels) for feed in feeds if feed.plate == plate), None) or None


def _short_g(plan: Plan, plate: int) -> float:
    """Return the grams, with the reserve, that no spool has for a plate."""
    feeds = plan.clocks.feeds if plan.clocks else ()
    return sum(feed.short_g for feed in feeds if feed.plate == plate)


def _deadline(plan: Plan) -> str | None:
    """Return when a job is due."""
    calendar = plan.job.calendar
    return calendar.deadline.isoformat() if calendar and calendar.deadline else None


def _coupons(plans: Mapping[str, Plan]) -> list[dict[str, str | None]]:
    """Return the coupons to print first: one for a printer and material, whosever plates wait for it."""
    found: dict[tuple[str, str], dict[str, str | None]] = {}
    for plan in plans.values():
        first = plan.coupon
        if first is not None and (first.printer, first.material) not in found:
            row = {
                "printer": first.printer,
                "material": first.material,
                "start": moment_json(first.start),
                "why": first.why,
            }
            found[first.printer, first.material] = row
    return list(found.values())
