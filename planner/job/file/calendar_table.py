"""The calendar of a job file: days, hours, printers, wishes."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import get_args
from zoneinfo import available_timezones

from planner.errors import nearest
from planner.job.calendar import Attended, Calendar, CouponWish, Order, SplitWish, Weights
from planner.job.file.plate_sharing import read_plate_rules
from planner.job.file.table import Table
from planner.job.profiles.printer import Printer
from planner.job.profiles.profile_file import read_printer

SPLITS: tuple[SplitWish, ...] = get_args(SplitWish)
COUPONS: tuple[CouponWish, ...] = get_args(CouponWish)
FIRST = ("joint",)
"""What ``first_article`` may be, besides true and false."""
ORDERS: tuple[Order, ...] = get_args(Order)
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WINDOW = re.compile(r"(?P<first>[A-Z][a-z]{2})(?:-(?P<last>[A-Z][a-z]{2}))? (\d\d):(\d\d)-(\d\d):(\d\d)")


def read_calendar(table: Table) -> Calendar | None:
    """Read ``[plan]``; None where it is left out."""
    if not table.has("plan"):
        return None
    plan = table.table("plan")
    joint_first = _joint_first(plan)
    calendar = Calendar(
        start=plan.moment("start"),
        zone=_zone(plan),
        deadline=plan.day("deadline"),
        attended=read_windows(plan, "attended"),
        unattended=plan.flag("unattended", default=False),
        quiet=read_windows(plan, "quiet"),
        people_n=plan.count("people", 1, high=100) if plan.has("people") else None,
        first_article=joint_first or plan.flag("first_article", default=True),
        joint_first=joint_first,
        one_printer=plan.flag("one_printer", default=True),
        coupon=plan.word("coupon", COUPONS, "when-it-decides"),
        split=plan.word("split", SPLITS, "when-needed"),
        weights=_weights(plan),
        order=plan.word("order", ORDERS, "together"),
        fitting=plan.moment("fitting"),
        currency=plan.text("currency", "EUR"),
        energy_per_kwh=plan.number_or_none("energy_per_kwh", high=1e4),
        **read_plate_rules(plan),
    )
    plan.has("printers")  # read where profiles are
    plan.done()
    return calendar


def _joint_first(plan: Table) -> bool:
    """Return whether ``first_article`` asks for one joint alone; true and false are read as ever."""
    if not plan.has("first_article") or not isinstance(plan.raw["first_article"], str):
        return False
    return bool(plan.word("first_article", FIRST))


def _weights(plan: Table) -> Weights:
    """Read ``weigh``: what an hour, a gram lost and a plate change count, in any one unit; left out: hours alone."""
    if not plan.has("weigh"):
        return Weights()
    weigh = plan.table("weigh")
    found = Weights(
        per_hour=weigh.number_or("hour", 0.0),
        per_lost_g=weigh.number_or("lost_g", 0.0),
        per_change=weigh.number_or("change", 0.0),
    )
    weigh.done()
    if found == Weights(per_hour=0.0):
        plan.refuse("weigh", "all of its weights are 0", "write weigh = { hour = 1.0, lost_g = 0.02, change = 0.5 }")
    return found


def _zone(plan: Table) -> str:
    """Return the place's time zone; empty where it is left out."""
    name = plan.text("zone", "")
    if name and name not in available_timezones():
        plan.refuse("zone", f"no time zone is called '{name}'", nearest(name, sorted(available_timezones())))
    return name


def read_more_printers(table: Table, main: str, base: Path) -> tuple[Printer, ...]:
    """Read ``[plan] printers``: those besides the job's own; a name twice means two of a kind."""
    if not table.has("plan"):
        return ()
    names = list(table.table("plan").texts("printers"))
    if main in names:
        names.remove(main)
    found: list[Printer] = []
    taken = {read_printer(main, base).name}
    for name in names:
        printer = read_printer(name, base)
        unlike = (each for each in (printer.name, *(f"{printer.name} ({n})" for n in range(2, len(names) + 3))))
        printer = replace(printer, name=next(each for each in unlike if each not in taken))
        taken.add(printer.name)
        found.append(printer)
    return tuple(found)


def read_windows(table: Table, key: str) -> tuple[Attended, ...]:
    """Read a list of windows of a week."""
    return tuple(window for text in table.texts(key) for window in _windows(table, text, key))


def _windows(table: Table, text: str, key: str = "attended") -> tuple[Attended, ...]:
    """Read ``"Mon-Fri 17:30-22:30"``; a window over midnight is split at it."""
    found = WINDOW.fullmatch(text.strip())
    if found is None:
        table.refuse(key, f"'{text}' cannot be read", 'write "Mon-Fri 17:30-22:30"')
    first, last = found["first"], found["last"] or found["first"]
    for day in (first, last):
        if day not in DAYS:
            table.refuse(key, f"'{day}' is not a day of the week", nearest(day, DAYS))
    begin, end = DAYS.index(first), DAYS.index(last)
    days = tuple((begin + step) % 7 for step in range((end - begin) % 7 + 1))
    hours = [int(found[index]) for index in (3, 4, 5, 6)]
    start, stop = hours[0] * 60 + hours[1], hours[2] * 60 + hours[3]
    if max(hours[1], hours[3]) > 59 or max(start, stop) > 24 * 60:
        table.refuse(key, f"'{text}' has a time that does not exist", "write hours 00:00 to 24:00")
    if start == stop:
        table.refuse(key, f"'{text}' is empty", "write an end after the start")
    if start < stop:
        return (Attended(days=days, from_min=start, to_min=stop),)
    after = tuple((day + 1) % 7 for day in days)
    late = Attended(days=days, from_min=start, to_min=24 * 60)
    return (late, Attended(days=after, from_min=0, to_min=stop)) if stop else (late,)
