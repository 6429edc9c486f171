"""Finish or stop: the rules decide where they must, the clock where both can be."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.job import read_failure_rules
from planner.schedule import Hazard, Mishap, go_on_s, judged

HAZARD = Hazard(per_hour=0.02, change_s=900.0, heat_up_s=300.0)


def _judged(
    cause: str, *, at_h: float = 3.0, again_h: float = 0.5, out: bool = False, all_lost: bool = False
) -> Mishap:
    """Judge a plate of 8 h."""
    return judged(
        read_failure_rules()[cause],
        whole_s=8 * 3600.0,
        at_s=at_h * 3600.0,
        again_s=again_h * 3600.0,
        hazard=HAZARD,
        leaves_out=out,
        all_lost=all_lost,
    )


def test_every_cause_has_a_rule_with_a_source() -> None:
    """The table is data; each row says what to do, why, and where that comes from."""
    rules = read_failure_rules()

    assert {"loose", "shifted", "power", "spool-end"} <= set(rules)
    assert all(rule.why and rule.source for rule in rules.values())


def test_a_loose_piece_stops_the_plate_unless_the_printer_leaves_it_out() -> None:
    """Stop, with what leaving it out would save; finish where the printer can."""
    stop, finish = _judged("loose"), _judged("loose", out=True)

    assert (stop.does, stop.if_left_out) == ("stop", True)
    assert (finish.does, finish.if_left_out) == ("finish", False)
    assert finish.finish_s < finish.stop_s


def test_what_ruins_every_piece_stops_and_an_empty_spool_does_not() -> None:
    """Shifted layers stop even near the end; an empty spool goes on even near the start; all lost always stops."""
    assert _judged("shifted", at_h=7.9).does == "stop"
    assert _judged("spool-end", at_h=0.1).does == "finish"
    assert _judged("spool-end", all_lost=True).does == "stop"


def test_the_clock_decides_where_both_can_be() -> None:
    """A bad surface late on a short list of pieces: finish; right at the start with nearly all lost: begin again."""
    assert _judged("scarred", at_h=6.0, again_h=0.5).does == "finish"
    assert _judged("scarred", at_h=0.1, again_h=7.5).does == "stop"


def test_the_rest_of_a_run_is_what_a_simulation_finds() -> None:
    """Closed form of a truncated exponential, against 400,000 simulated rests, within 1 %."""
    until = np.random.default_rng(5).exponential(3600.0 / 0.02, 400_000)
    mean = np.where(until < 18_000.0, until + 30_000.0, 18_000.0).mean()

    assert go_on_s(18_000.0, 0.02, 30_000.0) == pytest.approx(mean, rel=0.01)
    assert go_on_s(18_000.0, 0.0, math.inf) == 18_000.0


def test_finishing_is_what_a_simulation_finds() -> None:
    """Go on from 3 h of 8, then print the lost pieces again; a failure on the way begins all anew: 400,000 plays, 1 %."""
    rng, rate = np.random.default_rng(11), 0.1
    hazard, n = Hazard(per_hour=rate, change_s=900.0, heat_up_s=300.0), 400_000

    def with_restarts(hours: float, plays: int) -> np.ndarray:
        """Return hours to a good end of a run, its last bed cleared too."""
        clock, open_ = np.full(plays, 0.25), np.arange(plays)
        while len(open_):
            until = rng.exponential(1.0 / rate, len(open_))
            clock[open_] += np.where(until < hours, until + 0.25, hours)
            open_ = open_[until < hours]
        return clock

    until = rng.exponential(1.0 / rate, n)
    bad = until < 5.0
    clock = np.where(bad, until, 5.0) + 0.25
    clock[bad] += with_restarts(8.0, int(bad.sum()))
    clock[~bad] += with_restarts(2.0, int((~bad).sum()))
    found = judged(
        read_failure_rules()["scarred"],
        whole_s=8 * 3600.0,
        at_s=3 * 3600.0,
        again_s=2 * 3600.0,
        hazard=hazard,
        leaves_out=False,
        all_lost=False,
    )

    assert found.finish_s == pytest.approx(3600.0 * clock.mean(), rel=0.01)
