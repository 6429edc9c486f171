"""What a chapter must buy for all its devices together, against what was bought, by when, and with which slack."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import ceil

from planner.plan.plan_record import Plan

TAKES_NOTHING = ("take off support", "drill and ream", "finish")
"""Work by hand for which nothing that is bought has to be there."""
Item = tuple[str, str]
"""A name, as it is said to ``fitwright bought``, and its unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leads:
    """Days from an order to its arrival: of all items (None: nobody says), and of some by their names."""

    days: float | None = None
    of_item: Mapping[str, float] = field(default_factory=dict)

    def of(self, item: str) -> int | None:
        """Return the whole days of an item, rounded up."""
        found = self.of_item.get(item, self.days)
        return None if found is None else ceil(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """One line: what all devices need and what was bought; ``buy_n`` more are to be bought.

    ``by`` is the day on which the first device that they are missing for is put together, ``order_by`` that less the
    days of delivery, ``slack_days`` the days left until then, negative where that day is over; None where not known.
    ``jobs`` are the folders of the devices that they are missing for.
    """

    item: str
    unit: str
    need_n: float
    have_n: float
    buy_n: float
    by: date | None
    order_by: date | None
    slack_days: int | None
    jobs: tuple[str, ...]


def items_of(plan: Plan) -> dict[Item, float]:
    """Return what a device takes that is bought: pieces with the spares in their bags, cord and webbing, padding."""
    found: dict[Item, float] = {}

    def add(name: str, unit: str, n: float) -> None:
        found[name, unit] = found.get((name, unit), 0.0) + n

    for line in plan.hardware:
        if not line.printed:
            long = f" x {line.length_mm:g} mm" if line.length_mm is not None else ""
            add(f"{line.kind} {line.size}{long}", "pcs", line.count + line.spares_n)
    for cut in plan.cuts:
        if cut.area_mm2 is not None:
            add(f"{cut.kind} {cut.width_mm or 0.0:g} mm thick", "cm²", cut.count * cut.area_mm2 / 100.0)
        elif cut.length_mm is not None:
            add(f"{cut.kind} {cut.width_mm or 0.0:g} mm", "m", cut.count * cut.length_mm / 1000.0)
        else:
            add(f"{cut.kind} {cut.width_mm or 0.0:g} mm, length not stated", "pcs", cut.count)
    return found


def needed_on(plan: Plan) -> date | None:
    """Return the day on which the first work by hand begins that takes what is bought; None where it is not known."""
    clocks = plan.clocks
    if clocks is None:
        return None
    takes = [run.start_min for run in clocks.steps or () if run.step.name not in TAKES_NOTHING]
    if takes:
        return clocks.table.at(min(takes)).date()
    return clocks.ready.date() if clocks.ready else None


def buy_list(plans: Mapping[str, Plan], bought: Mapping[str, float], leads: Leads, today: date) -> tuple[Purchase, ...]:
    """Return what is to be bought, the most urgent first, what no day is known for last.

    What was bought serves the devices in the order in which they are put together, those that are built already first.
    Leave out those that took theirs out of the stock.
    """
    order = sorted(plans, key=lambda name: (needed_on(plans[name]) or date.max, name))
    takers: dict[Item, list[tuple[str, float]]] = {}
    for name in order:
        for what, each_n in items_of(plans[name]).items():
            takers.setdefault(what, []).append((name, each_n))
    rows = []
    for (item, unit), takes in takers.items():
        have, need = bought.get(item, 0.0), sum(n for _, n in takes)
        left, missing = have, list[str]()
        for name, n in takes:
            left -= n
            if left < -1e-9:
                missing.append(name)
        if not missing:
            continue
        by = needed_on(plans[missing[0]])
        days = leads.of(item)
        order_by = by - timedelta(days=days) if by is not None and days is not None else None
        n = need - have
        rows.append(
            Purchase(
                item=item,
                unit=unit,
                need_n=need,
                have_n=have,
                buy_n=float(ceil(n - 1e-9)) if unit == "pcs" else n,
                by=by,
                order_by=order_by,
                slack_days=None if order_by is None else (order_by - today).days,
                jobs=tuple(missing),
            )
        )
    return tuple(sorted(rows, key=lambda row: (row.order_by or row.by or date.max, row.item)))


def late_by_lead(plans: Mapping[str, Plan], rows: tuple[Purchase, ...], today: date) -> dict[str, tuple[int, str]]:
    """Return by folder the days a device is late because something comes too late, and what; those in time left out.

    What is ordered today comes after its days of delivery; work by hand waits for it, and the device as long.
    """
    found: dict[str, tuple[int, str]] = {}
    for row in rows:
        if row.by is None or row.order_by is None:
            continue
        comes = today + (row.by - row.order_by)
        for name in row.jobs:
            plan = plans[name]
            begins, calendar, ready = needed_on(plan), plan.job.calendar, plan.clocks.ready if plan.clocks else None
            if begins is None or ready is None or calendar is None or calendar.deadline is None:
                continue
            waits = max((comes - begins).days, 0)
            late = (ready.date() + timedelta(days=waits) - calendar.deadline).days
            if waits and late > found.get(name, (0, ""))[0]:
                found[name] = late, f"{row.item} comes on {comes} at the earliest, {waits} days after it is needed"
    return found
