"""An independent checker of a chapter's plan: from its JSON and from what was told, with no code of the planner.

It knows the place's hours, the people and the spools as the test stated them, and counts printed pieces by itself.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from itertools import combinations
from typing import Any

Row = dict[str, Any]


@dataclass(kw_only=True)
class Truth:
    """What is so: hours on every day, people, spools, and by job what is needed and what came off a bed whole."""

    from_hour: float
    to_hour: float
    unattended: bool
    people: Mapping[str, tuple[set[str], float | None, set[date]]]
    left_g: dict[str, float]
    need: dict[str, Counter[str]]
    good: dict[str, Counter[str]] = field(default_factory=dict)
    running: dict[str, tuple[str, str, datetime, str]] = field(default_factory=dict)
    """By plate: job, printer, the moment at which it should end, spool."""
    plates: dict[str, Counter[str]] = field(default_factory=dict)
    grams: dict[str, float] = field(default_factory=dict)
    gone: set[str] = field(default_factory=set)
    """Jobs that were handed over."""
    blocked: set[str] = field(default_factory=set)
    """Printers that take no plates."""
    own: set[str] = field(default_factory=set)
    """Printers of the kind that the jobs are for: where all of these are blocked, a job may wait."""
    coupon_until: dict[str, date] = field(default_factory=dict)
    """By printer the last day on which its coupon is believed; a printer that is not named has one for good."""
    asks: dict[str, str] = field(default_factory=dict)
    """Jobs that want a coupon before their first plate, and the printer that they are for now."""
    begun: set[str] = field(default_factory=set)
    """Jobs of which some plate was started on a printer that is not blocked."""
    due: dict[str, date] = field(default_factory=dict)
    """By job the day on which it should be ready; one that is not named has none."""
    come_late: dict[str, datetime] = field(default_factory=dict)
    """Jobs that came when others were planned already, and when."""
    own_hours: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """Of printers that have hours of their own, on every day, within those of the place."""

    def hours(self, printer: str) -> tuple[float, float]:
        """Return from when to when somebody is at a printer, on every day."""
        opens, closes = self.own_hours.get(printer, (self.from_hour, self.to_hour))
        return max(opens, self.from_hour), min(closes, self.to_hour)


def faults(sums: Row, kept: list[Row], truth: Truth, now: datetime) -> list[str]:
    """Return what is wrong with a plan made at a moment, in sentences."""
    return [
        *_printers(sums, truth, now),
        *_blocked(sums, truth),
        *_coupons(sums, truth, now),
        *_jobs(sums, truth),
        *_late(sums, truth),
        *_hands(sums, truth, now),
        *_spools(sums, kept, truth, now),
        *_pieces(kept, truth),
    ]


def _at(text: str) -> datetime:
    return datetime.fromisoformat(text)


def _runs(sums: Row) -> list[tuple[str, datetime, datetime, str]]:
    """Return the plates that have a time: printer, start, end, id."""
    return [(r["printer"], _at(r["start"]), _at(r["end"]), r["id"]) for r in sums["schedule"] if r["start"]]


def _printers(sums: Row, truth: Truth, now: datetime) -> Iterator[str]:
    """Yield plates in the past, outside the hours, two on a printer at once, or on one that still runs another."""
    runs = _runs(sums)
    if len({run[3] for run in runs}) < len(runs):
        yield "one plate is on the calendar twice"
    for printer, start, end, name in runs:
        if start < now:
            yield f"{name} starts in the past: {start} < {now}"
        from_hour, to_hour = truth.hours(printer)
        if not from_hour <= start.hour + start.minute / 60 < to_hour:
            yield f"{name} starts at {start} on {printer}, when nobody is there"
        closes = datetime.combine(start.date(), datetime.min.time()) + timedelta(hours=to_hour)
        if not truth.unattended and end > closes and to_hour < 24:
            yield f"{name} runs on at {end}, when nobody is there"
        for other, (_, on, until, _) in truth.running.items():
            if on == printer and start < max(until, now):
                yield f"{name} starts at {start} on {printer}, which runs {other} until {until}"
            if name == other:
                yield f"{name} runs, and is planned again"
    for one, two in combinations(runs, 2):
        if one[0] == two[0] and one[1] < two[2] and two[1] < one[2]:
            yield f"{one[3]} and {two[3]} are on {one[0]} at once"


def _blocked(sums: Row, truth: Truth) -> Iterator[str]:
    """Yield plates on printers that take none."""
    for printer, start, _, name in _runs(sums):
        if printer in truth.blocked:
            yield f"{name} starts at {start} on {printer}, which is blocked"


def _coupons(sums: Row, truth: Truth, now: datetime) -> Iterator[str]:
    """Yield plates before the coupon of their printer is measured, where their job wants one, and coupons in the past."""
    measured = {row["printer"]: _at(row["measured"]) for row in sums["coupons"] if row["measured"]}
    for row in sums["coupons"]:
        if row["start"] and _at(row["start"]) < now:
            yield f"a coupon is printed on {row['printer']} in the past, at {row['start']}"
    for printer, start, _, name in _runs(sums):
        job, until = name.rsplit(".", 1)[0], truth.coupon_until.get(printer)
        lapsed = until is not None and now.date() > until
        if job not in truth.asks or printer != truth.asks[job]:
            continue
        if (lapsed or job not in truth.begun) and start < measured.get(printer, now + timedelta(days=999)):
            why = f"ran out on {until}" if lapsed else "is not measured"
            yield f"{name} starts at {start} on {printer}, whose coupon {why}"


def _jobs(sums: Row, truth: Truth) -> Iterator[str]:
    """Yield jobs that are left out though some printer of theirs takes plates, those that came late among them."""
    there = {row["recipient"] for row in sums["jobs"]}
    for job in set(truth.need) - there:
        if job in truth.gone or truth.own <= truth.blocked:
            continue
        when = f", though it came at {truth.come_late[job]}" if job in truth.come_late else ""
        yield f"{job} is not planned{when}"


def _late(sums: Row, truth: Truth) -> Iterator[str]:
    """Yield jobs told as late that are not, or by other days, late ones that nobody is told of, and a go beside them."""
    told = {row["job"]: row["days"] for row in sums["late"]}
    if told and sums["verdict"] == "go":
        yield f"the chapter goes, though {', '.join(told)} are late"
    undated = {row["id"].rsplit(".", 1)[0] for row in sums["schedule"] if row["start"] is None}
    ends = dict[str, datetime]()
    for row in sums["hands"]:
        ends[row["job"]] = max(_at(row["end"]), ends.get(row["job"], datetime.min))  # noqa: DTZ901
    for job in {row["recipient"] for row in sums["jobs"]}:
        due, end = truth.due.get(job), ends.get(job)
        if job in truth.gone or due is None:
            late, why = False, "it was handed over" if job in truth.gone else "it is not due"
        elif job in undated or end is None:
            late, why = True, "it has no date"
        else:
            late, why = end.date() > due, f"it is ready on {end.date()} and due on {due}"
        days = None if end is None or due is None else (end.date() - due).days
        if late is not (job in told) or (late and told[job] not in (None, days)):
            yield f"{job} is told as {f'{told[job]} days late' if job in told else 'in time'}, and {why}"


def late_of(sums: Row) -> tuple[int, int]:
    """Return how many jobs have no filament or no day on which they are ready, and how many days late the others are."""
    undated, days = 0, 0
    unfed = {row["folder"] for row in sums["schedule"] if row["short_g"]}
    for row in sums["jobs"]:
        done = not row["plates"] and not row["hands_on_min"]
        if row["ready"] is None and done:  # nothing is left to be dated
            continue
        if row["ready"] is None or row["folder"] in unfed:
            undated += 1
        elif row["deadline"]:
            days += max(0, (_at(row["ready"]).date() - date.fromisoformat(row["deadline"])).days)
    return undated, days


def untrue(buy: Row, before: Row, after: Row) -> Iterator[str]:
    """Yield what a purchase promised and does not keep: plans before it and after it, made anew with it in place."""
    (undated, days), (undated_then, days_then) = late_of(before), late_of(after)
    said = f"{buy['what']} is said to save {buy['days']} days and date {buy['devices']} devices"
    if buy["days"] > days:
        yield f"{said}, and only {days} are late at all"
    if buy["devices"] > undated:
        yield f"{said}, and only {undated} have no date at all"
    # a device that gets a date may bring days late of its own: of days only what is said of them is held
    if undated_then > undated - buy["devices"] or (buy["days"] and days_then > days - buy["days"]):
        yield f"{said}: {undated} without a date and {days} days late become {undated_then} and {days_then}"


def _hands(sums: Row, truth: Truth, now: datetime) -> Iterator[str]:
    """Yield people in two places, outside the hours, away, over their week, or testing what they built."""
    rows = [(r["person"], _at(r["start"]), _at(r["end"]), r["job"], r["step"]) for r in sums["hands"]]
    for one, two in combinations(rows, 2):
        if one[0] == two[0] and one[1] < two[2] and two[1] < one[2]:
            yield f"{one[0]} is in two places at {max(one[1], two[1])}"
    weeks, builders = Counter[tuple[str, date]](), dict[str, set[str]]()
    ends = dict[str, datetime]()
    for _, _, end, name in _runs(sums):
        job = name.rsplit(".", 1)[0]
        ends[job] = max(end, ends.get(job, end))
    for job, _, until, _ in truth.running.values():
        ends[job] = max(until, ends.get(job, until))
    for person, start, end, job, step in rows:
        roles, hours_week, away = truth.people[person]
        if start < now:
            yield f"{person} works in the past, at {start}"
        if start < ends.get(job, start):
            yield f"{person} works on {job} at {start}, before it is printed at {ends[job]}"
        if start.date() in away:
            yield f"{person} is away on {start.date()}"
        opens = start.hour + start.minute / 60 >= truth.from_hour
        closes = datetime.combine(start.date(), datetime.min.time()) + timedelta(hours=truth.to_hour)
        if not opens or end > closes:
            yield f"{person} works from {start} to {end}, when nobody is there"
        week = person, start.date() - timedelta(days=start.weekday())
        weeks[week] += round((end - start).total_seconds())
        if hours_week is not None and weeks[week] > 3600 * hours_week + 1:
            yield f"{person} works more than {hours_week} h in the week of {week[1]}"
        needs = "tester" if step.startswith("test") else "fitter" if step.startswith("fit ") else "maker"
        if needs not in roles:
            yield f"{person} is no {needs}"
        if needs == "maker":
            builders.setdefault(job, set()).add(person)
    for person, _, _, job, step in rows:
        if step.startswith("test") and person in builders.get(job, set()):
            yield f"{person} tests {job}, and built it"


def _spools(sums: Row, kept: list[Row], truth: Truth, now: datetime) -> Iterator[str]:
    """Yield spools that feed two printers at once, or more grams than they have."""
    grams = {row["id"]: row["mass_g"] or 0.0 for row in kept}
    feeds = [
        (spool, r["printer"], _at(r["start"]), _at(r["end"]), r["id"])
        for r in sums["schedule"]
        if r["start"] and r["spool"]
        for spool in r["spool"].split(", ")
    ]
    used: defaultdict[str, float] = defaultdict(float)
    short = {r["id"]: r["short_g"] for r in sums["schedule"]}
    feeds += [(spool, on, now, until, name) for name, (_, on, until, spool) in truth.running.items() if spool]
    for one, two in combinations(feeds, 2):
        if one[0] == two[0] and one[1] != two[1] and one[2] < two[3] and two[2] < one[3]:
            yield f"spool {one[0]} feeds {one[4]} and {two[4]} at once"
    alone = Counter(feed[4] for feed in feeds)
    for spool, _, _, _, name in feeds:
        if alone[name] == 1 and name not in truth.running:
            used[spool] += max(0.0, grams.get(name, truth.grams.get(name, 0.0)) - short.get(name, 0.0))
    begun: defaultdict[str, float] = defaultdict(float)  # what runs may end its spool: that is past mending
    for name, (_, _, _, spool) in truth.running.items():
        begun[spool] += truth.grams[name]
    for spool, need in used.items():
        left_g = max(0.0, truth.left_g.get(spool, 0.0) - begun[spool])
        if need > left_g + 0.5:
            yield f"spool {spool} feeds {need:.1f} g, and has {left_g:.1f} g"


def _pieces(kept: list[Row], truth: Truth) -> Iterator[str]:
    """Yield pieces that are missing and not planned, or planned though they are there."""
    planned: dict[str, Counter[str]] = {}
    for row in kept:
        if row["state"] == "planned":
            planned.setdefault(row["id"].rsplit(".", 1)[0], Counter()).update(row["pieces"])
    for job, need in truth.need.items():
        there = Counter(truth.good.get(job, Counter()))
        for name, (of, _, _, _) in truth.running.items():
            if of == job:
                there.update(truth.plates[name])
        wanted = Counter[str]() if job in truth.gone else need - there
        if truth.own <= truth.blocked:
            continue  # it waits as it was
        if planned.get(job, Counter()) != wanted:
            yield f"{job} lacks {dict(wanted)}, and {dict(planned.get(job, Counter()))} is planned"
