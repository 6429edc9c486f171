"""What a plate costs on average when it may fail and is then begun again.

Failures come at a constant rate (exponential times). Where a printer keeps no checkpoint, a failed plate is cleared and
begun again: Young (1974, CACM 17:530) and Daly (2006, FGCS 22:303) give the expected time (1/rate + R)(e^(rate T) - 1)
for a run of T that restarts at a cost of R. Where it goes on after some failures, ``checkpoint.py`` says more.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planner.job import Printer
from planner.schedule.risk.checkpoint import Marks, marked_run

HOUR_S = 3600.0
HOPELESS = 50.0
"""Above this many expected failures in one run (e^50 attempts) it never ends: told as infinite."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """How one printer fails: ``per_hour`` while it runs, ``change_s`` to clear a bed, ``heat_up_s`` laying nothing."""

    per_hour: float
    change_s: float
    heat_up_s: float
    goes_on: Marks | None = None
    """Which of the failures the printer goes on after; None: none of them."""

    def times(self, ratio: float) -> Hazard:
        """Return the same with failures that come so many times as often."""
        return replace(self, per_hour=self.per_hour * ratio)

    @staticmethod
    def of(printer: Printer) -> Hazard:
        """Return the hazard of a printer: its own log's rate where its profile has one, else the profile's."""
        return Hazard(
            per_hour=printer.failure_per_hour.value,
            change_s=printer.plate_change_s.value,
            heat_up_s=printer.heat_up_s.value,
            goes_on=Marks.of(printer),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Risk:
    """One plate under a hazard.

    ``failure_percent`` is the chance that one attempt fails, ``failures_n`` how many do before one ends well,
    ``expected_s`` the time to that end with clearing between attempts, ``lost_g`` the filament of the failed ones
    (None where the plate's grams are not known).
    """

    duration_s: float
    failure_percent: float
    failures_n: float
    expected_s: float
    lost_g: float | None

    @property
    def lost_s(self) -> float:
        """The time that failures cost on average."""
        return self.expected_s - self.duration_s


def expected_s(duration_s: float, per_hour: float, restart_s: float = 0.0) -> float:
    """Return the expected time of a run that restarts from nothing when it fails (Young 1974; Daly 2006).

    >>> round(expected_s(20 * 3600, 0.03) / 3600, 1), round(4 * expected_s(5 * 3600, 0.03) / 3600, 1)
    (27.4, 21.6)
    """
    exponent = per_hour * duration_s / HOUR_S
    if exponent == 0.0:
        return duration_s
    if exponent > HOPELESS:
        return math.inf
    return (HOUR_S / per_hour + restart_s) * math.expm1(exponent)


def risk_of(duration_s: float, mass_g: float | None, hazard: Hazard) -> Risk:
    """Return the risk of one plate.

    Filament is laid evenly after the heat-up, so one attempt lays m/(T - h) (e^(-rate h) - e^(-rate T))/rate on
    average; there are e^(rate T) attempts (geometric), and Wald's identity gives what they lay together.
    """
    exponent = hazard.per_hour * duration_s / HOUR_S
    if exponent == 0.0:
        return Risk(
            duration_s=duration_s,
            failure_percent=0.0,
            failures_n=0.0,
            expected_s=duration_s,
            lost_g=None if mass_g is None else 0.0,
        )
    if hazard.goes_on is not None:
        return _marked(duration_s, mass_g, hazard, hazard.goes_on)
    hopeless = exponent > HOPELESS
    return Risk(
        duration_s=duration_s,
        failure_percent=-100.0 * math.expm1(-exponent),
        failures_n=math.inf if hopeless else math.expm1(exponent),
        expected_s=expected_s(duration_s, hazard.per_hour, hazard.change_s),
        lost_g=None if mass_g is None else math.inf if hopeless else _lost_g(duration_s, mass_g, hazard),
    )


def _marked(duration_s: float, mass_g: float | None, hazard: Hazard, marks: Marks) -> Risk:
    """Return the risk on a printer that goes on after some failures; grams are lost by the others alone."""
    run = marked_run(duration_s, hazard.per_hour / HOUR_S, marks, hazard.change_s)
    anew = replace(hazard, per_hour=hazard.per_hour * (1.0 - marks.share), goes_on=None)
    return Risk(
        duration_s=duration_s,
        failure_percent=100.0 * run.fails,
        failures_n=run.failures_n,
        expected_s=run.expected_s,
        lost_g=risk_of(duration_s, mass_g, anew).lost_g,
    )


def _lost_g(duration_s: float, mass_g: float, hazard: Hazard) -> float:
    """Return the grams that failed attempts lay before one ends well."""
    rate, heat_up = hazard.per_hour / HOUR_S, min(hazard.heat_up_s, duration_s)
    laying = duration_s - heat_up
    if laying <= 0.0:
        return 0.0
    attempts = math.exp(rate * duration_s)
    laid_s = (math.exp(-rate * heat_up) - math.exp(-rate * duration_s)) / rate
    return max(0.0, mass_g * (attempts * laid_s / laying - 1.0))
