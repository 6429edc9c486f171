"""Checkpoint: the expected time of a plate on a printer that goes on after some of its failures.

Such a printer remembers its place every so often. A power cut or an empty spool costs what was printed since the last
mark, and the time to go on; a piece that came loose or a shifted layer is lost either way: the plate begins again.
Between two failures that begin it anew, a stretch from mark to mark is Young's (1974) and Daly's (2006) run that
restarts from its own begin; over the stretches the time to a good end is that of independent trials (textbook).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.job import Printer

LEAST_CHANCE = math.exp(-50.0)
"""Below this chance of a good end a plate never ends: told as infinite."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """``share`` (0 to 1) of all failures is gone on after, from a mark set every ``mark_s``, in ``resume_s``."""

    share: float
    mark_s: float
    resume_s: float

    @staticmethod
    def of(printer: Printer) -> Marks | None:
        """Return the marks of a printer; None where it begins again whatever fails."""
        if printer.goes_on is None:
            return None
        return Marks(
            share=printer.goes_on.share_percent.value / 100.0,
            mark_s=printer.goes_on.mark_s.value,
            resume_s=printer.goes_on.resume_s.value,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedRun:
    """``fails`` is the chance that an attempt is begun again, ``failures_n`` how many are before one ends well."""

    fails: float
    failures_n: float
    expected_s: float


def marked_run(duration_s: float, rate: float, marks: Marks, change_s: float) -> MarkedRun:
    """Return the expected time of a run with failures at ``rate`` a second, of which some are gone on after.

    One stretch of length L, both kinds at the rate r = r1 + r2, is tried A = 1/(1 - (1 - e^(-r L)) r2/r) times on
    average before it ends well or the plate begins again; each try takes (1 - e^(-r L))/r, each going on ``resume_s``.
    It ends well with the chance s = A e^(-r L). All n stretches end well with s^n, so there are 1/s^n attempts.
    """
    stretches_n = int(duration_s // marks.mark_s)
    rest_s = duration_s - stretches_n * marks.mark_s
    well, takes = _stretch(marks.mark_s, rate, marks)
    well_rest, takes_rest = _stretch(rest_s, rate, marks)
    through = math.exp(stretches_n * math.log(well)) if well > 0 else 0.0
    ends_well = through * well_rest
    if ends_well < LEAST_CHANCE:
        return MarkedRun(fails=1.0, failures_n=math.inf, expected_s=math.inf)
    reached_n = float(stretches_n) if well == 1.0 else -math.expm1(stretches_n * math.log(well)) / (1.0 - well)
    failures_n = 1.0 / ends_well - 1.0
    attempt_s = reached_n * takes + through * takes_rest
    return MarkedRun(
        fails=1.0 - ends_well,
        failures_n=failures_n,
        expected_s=attempt_s / ends_well + change_s * failures_n,
    )


def _stretch(length_s: float, rate: float, marks: Marks) -> tuple[float, float]:
    """Return the chance that a stretch ends well before the plate begins again, and the expected time in it."""
    if rate == 0.0 or length_s == 0.0:
        return 1.0, length_s
    fails = -math.expm1(-rate * length_s)
    tries = 1.0 / (1.0 - fails * marks.share)
    # written so that all failures gone on after give exactly 1
    well = 1.0 - tries * fails * (1.0 - marks.share)
    return well, tries * (fails / rate + fails * marks.share * marks.resume_s)
