"""The risk of a plate whose pieces are printed one after another, so that a failure loses one piece.

What is finished stays whole; the bed is cleared and heated again, and printing goes on with the piece that failed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.schedule.risk.failure_cost import HOUR_S, Hazard, Risk, risk_of


def risk_in_turn(pieces_s: Sequence[float], pieces_g: Sequence[float] | None, hazard: Hazard) -> Risk:
    """Return the risk of pieces in their order; the first one's time has the heat-up in it.

    The first piece is a run as any other (Young 1974; Daly 2006). Each later one of time p is begun on a warm bed: it
    takes (1 - e^(-rate p))/rate on average (mean of a truncated exponential time), and with the chance 1 - e^(-rate p)
    the clearing of the bed and a run of p and the heat-up. Grams likewise; None where they are not known.
    """
    if not pieces_s:
        return risk_of(0.0, 0.0, hazard)
    first = risk_of(pieces_s[0], pieces_g[0] if pieces_g else None, hazard)
    total, rate = sum(pieces_s), hazard.per_hour / HOUR_S
    expected, failures, lost = first.expected_s, first.failures_n, first.lost_g or 0.0
    for number, piece in enumerate(pieces_s[1:], 1):
        gram = pieces_g[number] if pieces_g else 0.0
        again = risk_of(hazard.heat_up_s + piece, gram if pieces_g else None, hazard)
        if rate == 0.0 or piece <= 0.0:
            expected += piece
            continue
        fails = -math.expm1(-rate * piece)
        expected += fails / rate + fails * (hazard.change_s + again.expected_s)
        failures += fails * (1.0 + again.failures_n)
        laid = (fails / rate - piece * (1.0 - fails)) / piece * gram
        lost += laid + fails * (again.lost_g or 0.0)
    return Risk(
        duration_s=total,
        failure_percent=-100.0 * math.expm1(-rate * total),
        failures_n=failures,
        expected_s=expected,
        lost_g=None if pieces_g is None else lost,
    )


def left_after(ends: Sequence[float], gone: float) -> float:
    """Return the share of a run that is still to do when it fails after a share ``gone``.

    ``ends`` are shares of the whole run: the end of heating up, then the end of every piece. The bed is heated again.

    >>> left_after((0.1, 0.4, 1.0), 0.5), left_after((0.1, 0.4, 1.0), 0.3)
    (0.7, 1.0)
    """
    heat, *pieces = ends
    done = max((end for end in pieces if end <= gone), default=heat)
    return 1.0 - done + heat
