"""Money: what the devices of a chapter still cost, by kind, for one device and for one that is delivered."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from planner.layers import ZERO, Amount
from planner.plan.chapter.shared import Shared
from planner.plan.plan_record import Plan

AGAIN, LABOUR, WEAR, POST, RESERVE = "what fails and is printed again", "labour", "wear of printers", "post", "reserve"
ONLY_DELIVERED = (AGAIN, POST, RESERVE)
"""What a device costs only by the time it is delivered."""
STATED_AS = {LABOUR: "labour_per_h", WEAR: "wear_per_h", POST: "post_each", RESERVE: "reserve_percent"}
SECONDS_H, MINUTES_H, PERCENT = 3600.0, 60.0, 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterMoney:
    """What is still to be spent on devices that are not built yet, by kind, with the average of one device.

    ``device`` and ``delivered`` are None where there is no such device. ``missing`` says what is not counted.
    """

    currency: str
    devices_n: int
    lines: Mapping[str, Amount]
    total: Amount
    device: Amount | None
    delivered: Amount | None
    missing: tuple[str, ...]


def chapter_money(plans: Mapping[str, Plan], shared: Shared, took: Collection[str] = ()) -> ChapterMoney:
    """Return what a chapter still costs; recipients in ``took`` have their device, and cost no more."""
    lines, missing, devices_n = dict[str, Amount](), list[str](), 0
    for plan in plans.values():
        name = plan.job.recipient or plan.job.name
        if plan.job.recipient and plan.job.recipient in took:
            continue
        if plan.cost is None:
            missing.append(f"{name}: its hours or grams are withheld")
        elif plan.cost.currency != shared.currency:
            missing.append(f"{name}: it counts in {plan.cost.currency}")
        else:
            devices_n += 1
            for what, amount in money_lines(plan, shared).items():
                lines[what] = lines.get(what, ZERO) + amount
    unstated = {what: key for what, key in STATED_AS.items() if key not in shared.rates}
    missing += [f"{what}: [money] {key} is not stated" for what, key in unstated.items()]
    device, total = (_sum(lines, without) for without in (ONLY_DELIVERED, ()))
    return ChapterMoney(
        currency=shared.currency,
        devices_n=devices_n,
        lines=lines,
        total=total,
        device=device.times(1.0 / devices_n) if devices_n else None,
        delivered=total.times(1.0 / devices_n) if devices_n else None,
        missing=tuple(missing),
    )


def delivered_cost(plan: Plan, shared: Shared) -> float:
    """Return the expected cost of one delivered device; 0 where it is withheld."""
    return _sum(money_lines(plan, shared), ()).value


def money_lines(plan: Plan, shared: Shared) -> dict[str, Amount]:
    """Return what is left to spend on one device by kind, in its job's currency; nothing where that is withheld.

    Printing wears a printer in plates that fail, too: its hours are divided by the share that comes off whole.
    """
    cost, seconds = plan.cost, plan.totals.duration_s
    if cost is None:
        return {}
    lines = {line.what: line.amount for line in cost.lines}
    lines[AGAIN] = Amount(**{end: getattr(cost.delivered, end) - getattr(cost.device, end) for end in ENDS})
    if "labour_per_h" in shared.rates:
        lines[LABOUR] = _sure(
            shared.rates["labour_per_h"] * (plan.clocks.hands_min if plan.clocks else 0.0) / MINUTES_H
        )
    if "wear_per_h" in shared.rates:
        each = shared.rates["wear_per_h"] / SECONDS_H / (1.0 - cost.scrap_share)
        lines[WEAR] = seconds.times(each) if seconds is not None else ZERO
    if "post_each" in shared.rates:
        lines[POST] = _sure(shared.rates["post_each"])
    if "reserve_percent" in shared.rates:
        lines[RESERVE] = _sum(lines, ()).times(shared.rates["reserve_percent"] / PERCENT)
    return lines


ENDS = ("value", "low", "high")


def _sure(amount: float) -> Amount:
    """Return an amount without a range."""
    return Amount(value=amount, low=amount, high=amount)


def _sum(lines: Mapping[str, Amount], without: Collection[str]) -> Amount:
    """Return the sum of lines but some; ranges add."""
    return sum((amount for what, amount in lines.items() if what not in without), ZERO)
