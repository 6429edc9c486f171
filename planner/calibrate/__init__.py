"""Calibrate: a coupon is printed and measured, and a printer gets offsets of its own.

1. ``coupon(line_width_mm)`` gives the mesh and its features; ``write_coupon`` both files.
2. ``read_readings(path)`` reads it back; ``fitted(readings, source)`` gives offsets with their intervals.
3. ``read_log(path)`` and ``logged(prints, …)`` give ratios of real to planned, and the failure rate.
4. ``append_print(path, print)`` adds a plate to the log.
5. ``own_profile(base_text, values, made_for)`` gives the printer's own profile as text.
6. ``pooled_means`` and ``pooled_rates`` learn of many printers at once; ``level_drifts``, ``rate_drifts`` see changes.
"""

from planner.calibrate.append_log import append_print
from planner.calibrate.coupon import Coupon, coupon
from planner.calibrate.coupon_files import write_coupon
from planner.calibrate.coupon_readings import Reading, Readings, read_readings, readings_text
from planner.calibrate.failure_families import FamilyRisk, family_risks
from planner.calibrate.fitted_offsets import Fitted, fitted
from planner.calibrate.own_profile import own_profile, with_families
from planner.calibrate.pooling.drift import Drift, level_drifts, rate_drifts
from planner.calibrate.pooling.pooled_means import PooledMeans, Usual, pooled_means
from planner.calibrate.pooling.pooled_rates import PooledRates, pooled_rates
from planner.calibrate.print_log import Logged, Print, logged, lost_pieces, read_log

__all__ = [
    "Coupon",
    "Drift",
    "FamilyRisk",
    "Fitted",
    "Logged",
    "PooledMeans",
    "PooledRates",
    "Print",
    "Reading",
    "Readings",
    "Usual",
    "append_print",
    "coupon",
    "family_risks",
    "fitted",
    "level_drifts",
    "logged",
    "lost_pieces",
    "own_profile",
    "pooled_means",
    "pooled_rates",
    "rate_drifts",
    "read_log",
    "read_readings",
    "readings_text",
    "with_families",
    "write_coupon",
]
