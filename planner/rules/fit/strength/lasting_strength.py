"""What is left of a strength that a short test at room temperature gives: under heat, lasting and repeated loads."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.job import Job, Material
from planner.phrases import listed
from planner.rules.fit.heat_over import hottest

ROOM_C = 23.0
"""Strengths are those of test bars tested at this temperature (ISO 291)."""
SHORT_H = 1.0 / 60.0
"""A short test takes about a minute (ISO 527-2 at 5 mm/min, from memory)."""
LONG_H, MANY_N = 1000.0, 1e6
"""The time and the number of loads that the limits' shares are for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoShare:
    """Up to which share of the low strength of a short test is go, and why that is less than the limit.

    Parameters
    ----------
    share
        The limit's share of what is left, 0 to 1; 0 where nothing is left.
    daily_share
        The same without the hottest place: what a doubt about a load that nobody placed may come to.
    left_said
        What heat, time and repetition leave, in words; empty where the job states none of them.
    source
        Of the limit.
    """

    share: float
    daily_share: float
    left_said: str
    source: str

    @property
    def percent(self) -> float:
        """The share in percent."""
        return 100.0 * self.share

    @property
    def why(self) -> str:
        """What to add to the reason of a verdict; empty where nothing takes strength away."""
        return f"; {self.left_said}, so less is go" if self.left_said else ""

    @property
    def proof(self) -> str:
        """How a proof load is put on, to add to a question about one."""
        return " as hot and as long as stated" if self.left_said else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """One thing that takes strength away.

    Parameters
    ----------
    share
        Of the strength, what is left, 0 to 1, by the middle of what the source says.
    low_share
        The same by the low end of it: what verdicts rest on, as strengths count at their low ends, too.
    stated
        Whether the job states it; else it is told, and decides nothing.
    heat
        Whether it is the hottest place, and not time or repetition.
    """

    name: str
    share: float
    low_share: float
    source: str
    stated: bool
    heat: bool = False


def lasting_of(job: Job, material: Material) -> tuple[Lasting, ...]:
    """Return what is left of a strength in the hottest place that is stated, when a load stays on, and when it repeats.

    The yield stress of a glassy polymer falls about straight with temperature, to nothing where it softens
    (Bauwens-Crowet, Bauwens and Homès 1969, from memory), and straight with the logarithm of time (Eyring 1936, from
    memory); with the logarithm of the number of loads, too (Wöhler's line, textbook).

    They multiply: a load that stays on in a hot place leaves the product of both.
    """
    limits, heat, found = job.limits, hottest(job), list[Lasting]()
    if heat is not None and heat.hottest_c > ROOM_C:
        softens = material.softens_c
        left, low = _of_heat(heat.hottest_c, softens.value), _of_heat(heat.hottest_c, min(softens.low, softens.value))
        source = f"straight down to nothing at {softens.value:g} °C, where {material.name} softens (from memory)"
        name = f"at {heat.hottest_c:g} °C"
        found.append(Lasting(name=name, share=left, low_share=low, source=source, stated=True, heat=True))
    load_h, loads_n = job.use.load_h, job.use.loads_n
    hours, times = LONG_H if load_h is None else load_h, MANY_N if loads_n is None else loads_n
    decades = math.log(max(hours / SHORT_H, 1.0)) / math.log(LONG_H / SHORT_H), math.log(times) / math.log(MANY_N)
    many = "a million" if times == MANY_N else f"{times:g}"
    for name, sourced, far, stated in (
        (f"after {hours:g} h under the load", limits.creep_share, decades[0], load_h is not None),
        (f"after {many} loads", limits.fatigue_share, decades[1], loads_n is not None),
    ):
        share, low = (max(1.0 - (1.0 - one) * far, 0.0) for one in (sourced.value, min(sourced.low, sourced.value)))
        found.append(Lasting(name=name, share=share, low_share=low, source=sourced.source, stated=stated))
    return tuple(found)


def _of_heat(hottest_c: float, softens_c: float) -> float:
    """Return what is left at a temperature, straight from all of it in a room to nothing where a material softens."""
    return max((softens_c - hottest_c) / (softens_c - ROOM_C), 0.0) if softens_c > ROOM_C else 0.0


def stated_left(lasting: Sequence[Lasting]) -> tuple[float, str]:
    """Return what all that the job states leaves of a strength at least, 0 to 1, and that in words; 1 without any."""
    stated = [one for one in lasting if one.stated]
    low, share = math.prod(one.low_share for one in stated), math.prod(one.share for one in stated)
    said = f"{100.0 * low:.0f} %" if 100.0 * (share - low) < 0.5 else f"{100.0 * low:.0f} to {100.0 * share:.0f} %"
    return low, f"{listed([one.name for one in stated])} {said} of it is left" if stated else ""


def go_share(job: Job, material: Material | None) -> GoShare:
    """Return up to which share of the low strength is go.

    Time and repetition are everyday use: the limit's share of what they leave is go, as factors of duration come on top
    of those of material in timber design (EN 1995-1-1, 2.4.1, from memory). The hottest place is the extreme, for which
    it is enough that strength is left, as no factors are put on accidents (EN 1990, 6.4.3.3, from memory).
    """
    limit = job.limits.strength_share
    stated = [one for one in (lasting_of(job, material) if material else ()) if one.stated]
    left, said = stated_left(stated)
    daily = limit.value * math.prod(one.low_share for one in stated if not one.heat)
    share = min(daily, left)
    said = said if share < limit.value else ""
    return GoShare(share=share, daily_share=daily, left_said=said, source=limit.source)
