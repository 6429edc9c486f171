"""Several plans at once: what a chapter must buy and print for all of its recipients together."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from datetime import datetime, time
from typing import Any

from planner.finding import Verdict
from planner.output.chapter_page.late import late_rows
from planner.output.chapter_page.purchases import purchase_json
from planner.output.chapter_page.reels import reels_json
from planner.output.chapter_page.spending import money_json
from planner.output.chapter_page.waiting import called, waiting_json
from planner.output.json.clocks_json import moment_json, ways_json
from planner.output.json.ledger_json import ledger_json
from planner.output.json.plan_json import Json
from planner.plan import Chapter, Leads, Plan, Shared, buy_list, chapter_money
from planner.schedule import Limits

Ids = Mapping[str, Mapping[int, str]]
"""Ids of plates in a ledger, by folder and number."""
SPOOL_G = 1000.0
"""A full spool; common practice, no source."""
HOW_COMPARED = (
    "each was planned again in short, from a few orders of work: "
    "the plan made once it is there may save more days or fewer"
)
"""How much the days and devices of what one more would buy are worth."""


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
    took: Collection[str] = (),
    shared: Shared | None = None,
    now: datetime | None = None,
) -> Json:
    """Return the sums over several plans, by folder name; each recipient's plates stay apart.

    ``unread`` says by path what is wrong with jobs that could not be read: each holds the chapter. ``ids`` are
    those that plates have in a ledger, by folder and number; ``changes`` what is otherwise than it was told there;
    ``running`` the plates that run. ``chapter`` tells who works on what, and what limits them all. ``bought`` is the
    stock by name, ``leads`` the days of delivery; ``took`` are the recipients whose devices took theirs out of the
    stock; ``shared`` what is paid for work, wear and post; ``now`` is when the plan is made, by default the day's
    midnight.

    Where the spools that are left do not feed all jobs together, the chapter is on hold though each job alone goes.
    """
    grams, ledger, at = _grams(plans), ledger_json(plans), now or _planned_at(plans)
    share = shared or Shared(currency=_currency(plans))
    bound, known = chapter.limits if chapter else None, ids or {}
    unbuilt = {name: plan for name, plan in plans.items() if plan.job.recipient not in took}
    buys = buy_list(unbuilt, bought or {}, leads or Leads(), at.date())
    late = late_rows(plans, chapter, buys, at)
    schedule, hands, runs = _schedule(plans, known), _hands(chapter, plans), [_running(row) for row in running]
    held = bool(unread) or bound is not None or bool(chapter and chapter.unmet_hands)
    held |= any(row.get("by_lead") for row in late)
    return {
        "schema": "fitwright/chapter/1",
        "verdict": _verdict(plans, ledger, held=held).value,
        "planned_at": at.isoformat(),
        "jobs": [
            _job(name, plan) | waiting_json(name, plan, schedule, hands, runs, chapter) for name, plan in plans.items()
        ],
        "unread": [{"path": path, "why": why} for path, why in (unread or {}).items()],
        "filament": _filament(grams),
        "late": [{key: row[key] for key in ("job", "days", "why")} for row in late],
        "bottleneck": _bottleneck(bound),
        "running": runs,
        "schedule": schedule,
        "hands": hands,
        "money": money_json(chapter_money(plans, share, took), share),
        "buy": [purchase_json(row, plans) for row in buys],
        "reels": reels_json(plans, known),
        "schedule_note": note,
        "changes": list(changes),
        "moved": _moved(chapter),
        "coupons": _coupons(plans, chapter),
        **ledger,
        "totals": _totals(plans, sum(grams.values())),
        "withheld": [f"{folder}: {plan.totals.withheld}" for folder, plan in plans.items() if plan.totals.withheld],
    }


def _currency(plans: Mapping[str, Plan]) -> str:
    """Return the currency of the first job that has a cost."""
    return next((plan.cost.currency for plan in plans.values() if plan.cost), "EUR")


def _planned_at(plans: Mapping[str, Plan]) -> datetime:
    """Return the midnight of the day that plans were prepared on."""
    return datetime.combine(max(plan.stage.sized.ready.today for plan in plans.values()), time())


def _verdict(plans: Mapping[str, Plan], ledger: Mapping[str, Sequence[Mapping[str, object]]], *, held: bool) -> Verdict:
    """Return the worst verdict of all jobs; a hold at best where ``held``, or where the spools do not feed them all."""
    verdicts = [plan.verdict for plan in plans.values()]
    verdicts += [Verdict.HOLD] * (held or any(row["short_g"] for row in ledger["spools"]))
    return max(verdicts, key=lambda v: v.severity, default=Verdict.GO)


def _filament(grams: Mapping[tuple[str, str], float]) -> list[Json]:
    """Return the grams of each material and colour, and how many full spools that is."""
    return [
        {
            "material": material,
            "colour": colour,
            "mass_g": mass_g,
            "spools": math.ceil(mass_g / SPOOL_G),
            "spool_g": SPOOL_G,
        }
        for (material, colour), mass_g in sorted(grams.items())
    ]


def _totals(plans: Mapping[str, Plan], mass_g: float) -> Json:
    """Return the sums over all jobs."""
    seconds = sum(plan.totals.duration_s.value for plan in plans.values() if plan.totals.duration_s)
    return {
        "plates": sum(len(plan.plates) for plan in plans.values()),
        "duration_s": seconds,
        "hours": seconds / 3600.0,
        "mass_g": mass_g,
        "hands_on_min": sum(plan.clocks.hands_min for plan in plans.values() if plan.clocks),
        "cost_delivered": _costs(plans),
    }


def _bottleneck(bound: Limits | None) -> Json | None:
    """Return what limits the chapter, with what one more of each would buy; null where nothing does."""
    if bound is None:
        return None
    buys = [{"what": buy.what, "days": buy.days, "devices": buy.devices} for buy in bound.buys]
    return {"what": bound.what, "short": bound.short, "buys": buys, "how": HOW_COMPARED}


def _moved(chapter: Chapter | None) -> Json:
    """Return how many plates left their place in the last plan, and the days late that this saves."""
    return {"plates": chapter.moved_n if chapter else 0, "days": chapter.won_days if chapter else 0}


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
            "job": called(row.folder, plans),
            "step": row.step,
            "start": moment_json(row.start),
            "end": moment_json(row.end),
        }
        for row in (chapter.hands if chapter else ())
    ]


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


def _coupons(plans: Mapping[str, Plan], chapter: Chapter | None) -> list[dict[str, str | None]]:
    """Return the coupons to print first: one for a printer and material, whosever plates wait for it."""
    each_job = (plan.coupon for plan in plans.values() if plan.coupon is not None)
    found = {(first.printer, first.material): first for first in (chapter.coupons if chapter else ())}
    for first in each_job:
        found.setdefault((first.printer, first.material), first)
    return [
        {
            "printer": first.printer,
            "material": first.material,
            "start": moment_json(first.start),
            "measured": moment_json(first.measured),
            "why": first.why,
        }
        for first in found.values()
    ]
