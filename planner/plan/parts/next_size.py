"""The size after this one: when it is wanted, what can be kept, and what the step costs."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass

from planner.layers import ZERO, Amount
from planner.plan.plan_record import Plan
from planner.size import Outgrown, nearest_percent, outgrown
from planner.supplies import Cut, HardwareLine


@dataclass(frozen=True, slots=True, kw_only=True)
class NextSize:
    """What follows when the device is outgrown.

    Parameters
    ----------
    outgrown
        The answer of each measure, the soonest first.
    percent
        The size that gives the soonest measure its room again.
    works
        Whether the device works there as far as rules of size and fit tell, after work or as it is.
    nearest_percent
        The nearest size that works; None where no size does.
    kept, anew
        Parts, hardware and cuts that serve again, as they need the same size, and those that do not.
    mass_g
        Filament of the parts to print anew; None where a part's mass is not known.
    cost
        Filament, energy and what is bought anew, in the job's currency, scrap included; None with the plan's cost.
    """

    outgrown: tuple[Outgrown, ...]
    percent: float
    works: bool
    nearest_percent: float | None
    kept: tuple[str, ...]
    anew: tuple[str, ...]
    mass_g: Amount | None
    cost: Amount | None


def next_size(plan: Plan) -> NextSize | None:
    """Return the step to the next size; None where nothing was measured, or the person is grown."""
    answers = outgrown(plan.job, plan.measures)
    first = next((one for one in answers if one.known != "grown"), None)
    if first is None or first.next_percent <= plan.scale_percent:
        return None
    follow = [part for part in plan.parts if part.part.scale_percent is None]
    stay = [part.part.name for part in plan.parts if part.part.scale_percent is not None]
    there = plan.built_at(first.next_percent)
    lines: list[HardwareLine | Cut] = [*plan.hardware, *plan.cuts]
    other: list[HardwareLine | Cut] = [*there.hardware, *there.cuts]
    before, after = {_wanted(line): line for line in lines}, {_wanted(line): line for line in other}
    bought = [line for key, line in after.items() if key not in before and not _printed(line)]
    growth = first.next_percent / plan.scale_percent
    masses = [None if part.mass_g is None else part.mass_g * part.part.printed_n for part in follow]
    known = [mass for mass in masses if mass is not None]
    mass = _grown(plan, sum(known), growth) if len(known) == len(masses) else None
    return NextSize(
        outgrown=answers,
        percent=first.next_percent,
        works=nearest_percent(plan.window.workable, first.next_percent) == first.next_percent,
        nearest_percent=nearest_percent(plan.window.workable, first.next_percent),
        kept=(*stay, *(line.name for key, line in before.items() if key in after and not _printed(line))),
        anew=(*(part.part.name for part in follow), *(line.name for line in bought)),
        mass_g=mass,
        cost=_cost(plan, mass, sum(line.price or 0.0 for line in bought)),
    )


def _wanted(line: HardwareLine | Cut) -> Hashable:
    """Return what tells whether a bought piece serves at another size: which it is, and every size of it."""
    if isinstance(line, Cut) and line.kind == "webbing":
        return id(line)  # goes round the person, who has grown
    if isinstance(line, Cut):
        return line.name, line.kind, line.width_mm, *(v and round(v) for v in (line.length_mm, line.area_mm2))
    return line.name, line.size, line.length_mm, line.count


def _printed(line: HardwareLine | Cut) -> bool:
    """Return whether a piece is printed, and so is one of the parts."""
    return isinstance(line, HardwareLine) and bool(line.printed)


def _grown(plan: Plan, mass_g: float, growth: float) -> Amount:
    """Return a mass at another size: shells grow by the square of a length, solid parts by its cube.

    It is as uncertain as the mass of the whole plan is, besides.
    """
    least, most = mass_g * growth**2, mass_g * growth**3
    whole = plan.totals.mass_g
    low, high = (1.0, 1.0) if whole is None or whole.value <= 0 else (whole.low / whole.value, whole.high / whole.value)
    return Amount(value=(least + most) / 2.0, low=least * low, high=most * high)


def _cost(plan: Plan, mass_g: Amount | None, bought: float) -> Amount | None:
    """Return filament and energy by the plan's own cost of a gram, scrap included, and what is bought anew."""
    if plan.cost is None or plan.totals.mass_g is None or mass_g is None or plan.totals.mass_g.value <= 0:
        return None
    printed = sum((line.amount for line in plan.cost.lines if line.what in ("filament", "energy")), ZERO)
    a_gram = printed.value / plan.totals.mass_g.value / (1.0 - plan.cost.scrap_share)
    return mass_g.times(a_gram) + Amount(value=bought, low=bought, high=bought)
