"""What is left of a strength that a short test at room temperature gives: under heat, lasting and repeated loads."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.job import Job, Material
from planner.phrases import listed
from planner.rules import hottest

ROOM_C = 23.0
"""Strengths are those of coupons tested at this temperature (ISO 291)."""
SHORT_H = 1.0 / 60.0
"""A short test takes about a minute (ISO 527-2 at 5 mm/min, from memory)."""
LONG_H, MANY_N = 1000.0, 1e6
"""The time and the number of loads that the limits' shares are for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """One thing that takes strength away.

    Parameters
    ----------
    share
        Of the strength, what is left, 0 to 1.
    stated
        Whether the job states it; else it is told, and decides nothing.
    """

    name: str
    share: float
    source: str
    stated: bool


def lasting_of(job: Job, material: Material) -> tuple[Lasting, ...]:
    """Return what is left of a strength in the hottest place that is stated, when a load stays on, and when it repeats.

    The yield stress of a glassy polymer falls about straight with temperature, to nothing where it softens
    (Bauwens-Crowet, Bauwens and Homès 1969, from memory), and straight with the logarithm of time (Eyring 1936, from
    memory); with the logarithm of the number of loads, too (Wöhler's line, textbook).

    They multiply: a load that stays on in a hot place leaves the product of both.
    """
    limits, heat, found = job.limits, hottest(job), list[Lasting]()
    if heat is not None and heat.hottest_c > ROOM_C:
        softens_c = material.softens_c.value
        left = max((softens_c - heat.hottest_c) / (softens_c - ROOM_C), 0.0) if softens_c > ROOM_C else 0.0
        source = f"straight down to nothing at {softens_c:g} °C, where {material.name} softens (from memory)"
        found.append(Lasting(name=f"at {heat.hottest_c:g} °C", share=left, source=source, stated=True))
    load_h, loads_n = job.use.load_h, job.use.loads_n
    hours, times = LONG_H if load_h is None else load_h, MANY_N if loads_n is None else loads_n
    decades = math.log(max(hours / SHORT_H, 1.0)) / math.log(LONG_H / SHORT_H), math.log(times) / math.log(MANY_N)
    many = "a million" if times == MANY_N else f"{times:g}"
    for name, sourced, far, stated in (
        (f"after {hours:g} h under the load", limits.creep_share, decades[0], load_h is not None),
        (f"after {many} loads", limits.fatigue_share, decades[1], loads_n is not None),
    ):
        share = max(1.0 - (1.0 - sourced.value) * far, 0.0)
        found.append(Lasting(name=name, share=share, source=sourced.source, stated=stated))
    return tuple(found)


def stated_left(lasting: Sequence[Lasting]) -> tuple[float, str]:
    """Return what all that the job states leaves of a strength, 0 to 1, and that in words; 1 and none without any."""
    stated = [one for one in lasting if one.stated]
    share = math.prod(one.share for one in stated)
    return share, f"{listed([one.name for one in stated])} {100.0 * share:.0f} % of it is left" if stated else ""
