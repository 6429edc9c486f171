"""The coupon first: where what a printer was never measured for decides, it is measured before the first plate."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime

from planner.calibrate import coupon
from planner.finding import Finding
from planner.job import Calendar, Job, Material, Printer, kind_of, printers_of, read_hands_on
from planner.layers import PartEstimate, estimate_part, mass_g, plate_duration_s
from planner.phrases import listed
from planner.plan.stages import CouponFirst
from planner.schedule import Wall, coupon_gate, shop_of


def _short(finding: Finding) -> str:
    """Return what a finding speaks of: the hardware and the part that it goes into, or else the feature alone."""
    what, into, _ = finding.feature.partition(" in ")
    return f"{what} in {finding.part}" if into else what


def coupon_first(job: Job, material: Material, findings: Sequence[Finding], today: date) -> CouponFirst | None:
    """Return the coupon to print first; None where the printer is measured, nothing hangs on it, or the job wants none.

    Order of work: coupon on this printer and spool, then the first article; common practice, no source.
    """
    wish = job.calendar.coupon if job.calendar else "when-it-decides"
    asked = dict.fromkeys(_short(f) for f in findings if f.question and kind_of(f.rule).coupon)
    if wish == "never" or (wish == "when-it-decides" and (job.printer.calibrated or not asked)):
        return None
    some = listed(asked, most_n=3)
    why = f"nobody has measured what {job.printer.name} does to bores and gaps, and that decides {some}"
    bare = _estimate(job, material)
    hands_min = round(read_hands_on().coupon_min.value)
    duration_s = plate_duration_s([bare], settings=job.settings, printer=job.printer).value
    made = CouponFirst(
        why=why if asked and not job.printer.calibrated else "the job asks for it",
        printer=job.printer.name,
        material=material.name,
        duration_s=duration_s,
        hands_min=hands_min,
        mass_g=mass_g(bare.deposited_mm3, material),
        day=today,
        start=None,
        last_start=None,
        end=None,
        measured=None,
    )
    return made if job.calendar is None else dated_coupon(made, job.calendar, printers_of(job))


def dated_coupon(
    first: CouponFirst, calendar: Calendar, printers: Sequence[Printer], since: datetime | None = None
) -> CouponFirst:
    """Return a coupon at its earliest time, from a moment on where one is given; undated where there is no time."""
    bare = replace(first, start=None, last_start=None, end=None, measured=None)
    if calendar.start is None:
        return bare
    wall, takes_min = Wall.of(calendar), max(1, math.ceil(first.duration_s / 60.0))
    after = max(0, math.ceil(wall.minutes_to(since))) if since else 0
    gate = coupon_gate(shop_of(calendar, printers), first.printer, takes_min, first.hands_min, after)
    if gate is None:
        return bare
    start = wall.at(gate.start_min)
    return replace(
        first,
        day=start.date(),
        start=start,
        last_start=wall.at(gate.last_start_min),
        end=wall.at(gate.end_min),
        measured=wall.at(gate.done_min),
    )


def in_turn(
    firsts: Iterable[CouponFirst],
    calendar: Calendar,
    printers: Sequence[Printer],
    free: Mapping[str, datetime] | None = None,
) -> dict[tuple[str, str], CouponFirst]:
    """Return coupons by printer and material, one after the other on a printer, which may be free from a moment on."""
    made: dict[tuple[str, str], CouponFirst] = {}
    for first in firsts:
        key = first.printer, first.material
        if key not in made:
            before = [other.measured for (printer, _), other in made.items() if printer == first.printer]
            before.append((free or {}).get(first.printer))
            made[key] = dated_coupon(first, calendar, printers, max((m for m in before if m), default=None))
    return made


def after_coupon(job: Job, first: CouponFirst | None) -> Job:
    """Return the job with its calendar from when its coupon is measured, or from its own start where that is later.

    Where one of its other printers was measured before, the job begins at its own start: see ``gated``.
    """
    if first is None or first.measured is None or job.calendar is None or job.calendar.start is None:
        return job
    waits = gated(job, first)
    if len(waits) < len(printers_of(job)):
        return job
    return replace(job, calendar=replace(job.calendar, start=max(min(waits.values()), job.calendar.start)))


def gated(job: Job, first: CouponFirst | None) -> dict[str, datetime]:
    """Return from when on each printer takes plates that waits for its coupon; one that was measured before does not.

    A coupon tells about its own machine alone: another printer that nobody has measured waits for one of its own.
    """
    if first is None or first.measured is None or job.calendar is None:
        return {}
    waits = {first.printer: first.measured}
    for other in coupons_beside(job, first):
        own = dated_coupon(other, job.calendar, printers_of(job))
        if own.measured is not None:
            waits[own.printer] = own.measured
    return waits


def coupons_beside(job: Job, first: CouponFirst) -> list[CouponFirst]:
    """Return the coupons of a job's other printers that nobody has measured, at the time of the first one."""
    others = [p.name for p in printers_of(job) if p.name != first.printer and not p.calibrated]
    return [replace(first, printer=name, why=first.why.replace(first.printer, name)) for name in others]


def own_coupon_notes(job: Job, first: CouponFirst | None, used: Iterable[str]) -> tuple[str, ...]:
    """Return a sentence for every other printer with plates that is to print a coupon of its own."""
    if first is None:
        return ()
    on = set(used)
    names = [other.printer for other in coupons_beside(job, first) if other.printer in on]
    return tuple(
        f"nobody has measured {name} either: print a coupon of its own on it before its plates, "
        f"which do not wait for the one on {first.printer}"
        for name in names
    )


def _estimate(job: Job, material: Material) -> PartEstimate:
    """Return the estimate of the coupon, printed without support."""
    bare = replace(job.settings, support="none")

    solid = coupon(bare.line_width_mm.value).solid
    return estimate_part(solid, settings=bare, printer=job.printer, material=material)
