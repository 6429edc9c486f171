"""Mishap: a plate went wrong; whether to go on with it or to begin again."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from planner.job import FailureRule
from planner.schedule.risk.failure_cost import HOUR_S, Hazard, risk_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Mishap:
    """What to do with a plate that went wrong, and what either way costs from now to the complete set.

    Times are expected ones under the printer's hazard, bed changes included. ``if_left_out`` says that finishing is
    the shorter way, but only where the printer can leave the lost pieces out.
    """

    does: Literal["finish", "stop"]
    why: str
    finish_s: float
    stop_s: float
    if_left_out: bool
    rule: FailureRule


def go_on_s(left_s: float, per_hour: float, else_s: float) -> float:
    """Return the expected time of the rest of a run that costs ``else_s`` more if it fails on the way.

    (1 - e^(-rate t))/rate is the mean of a truncated exponential time (textbook).
    """
    if per_hour == 0.0:
        return left_s
    fails = -math.expm1(-per_hour * left_s / HOUR_S)
    return fails * HOUR_S / per_hour + fails * else_s


def judged(
    rule: FailureRule,
    *,
    whole_s: float,
    at_s: float,
    again_s: float,
    hazard: Hazard,
    leaves_out: bool,
    all_lost: bool,
    anew_s: float | None = None,
) -> Mishap:
    """Judge a plate of ``whole_s`` that went wrong at ``at_s``; ``again_s`` prints the lost pieces alone (0: none).

    ``anew_s`` is what stopping leaves to print, where finished pieces stay whole; left out: the whole plate.
    Finishing takes what is left and then the lost pieces; stopping takes the whole plate anew. The rule decides where
    it says stop or finish, the clock where both can be.
    """
    left = max(0.0, whole_s - at_s)
    again = risk_of(again_s, None, hazard).expected_s + hazard.change_s if again_s else 0.0
    anew = risk_of(whole_s if anew_s is None else anew_s, None, hazard).expected_s + hazard.change_s
    stop = hazard.change_s + anew
    # the lost pieces are printed again only where the rest ends well: where it fails, the whole plate begins again
    ends_well = math.exp(-hazard.per_hour * left / HOUR_S)
    finish = go_on_s(left, hazard.per_hour, hazard.change_s + anew) + ends_well * (hazard.change_s + again)
    shorter = finish < stop
    can = rule.does in ("weigh", "finish") or (rule.does == "leave-out" and leaves_out)
    does: Literal["finish", "stop"] = (
        "finish" if can and not all_lost and (shorter or rule.does == "finish") else "stop"
    )
    if all_lost:
        why = "every piece on the plate is lost"
    elif does == "stop" and can:
        why = f"beginning again takes less: {stop / 3600:.1f} h against {finish / 3600:.1f} h"
    elif does == "finish" and rule.does != "finish":
        why = f"going on takes less: {finish / 3600:.1f} h against {stop / 3600:.1f} h; {rule.why}"
    else:
        why = rule.why
    return Mishap(
        does=does,
        why=why,
        finish_s=finish,
        stop_s=stop,
        if_left_out=rule.does == "leave-out" and not leaves_out and shorter and not all_lost,
        rule=rule,
    )
