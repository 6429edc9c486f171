"""Calibrate: a coupon is printed and measured, and a printer gets offsets of its own.

1. ``coupon(line_width_mm)`` gives the mesh and its features; ``write_coupon`` both files.
2. ``read_readings(path)`` reads it back; ``fitted(readings, source)`` gives offsets with their intervals.
3. ``read_log(path)`` and ``logged(prints, …)`` give ratios of real to planned, and the failure rate.
4. ``append_print(path, print)`` adds a plate to the log.
5. ``own_profile(base_text, values, made_for)`` gives the printer's own profile as text.
"""

from planner.calibrate.append_log import append_print
from planner.calibrate.coupon import Coupon, coupon
from planner.calibrate.coupon_files import write_coupon
from planner.calibrate.coupon_readings import Reading, Readings, read_readings, readings_text
from planner.calibrate.failure_families import FamilyRisk, family_risks
from planner.calibrate.fitted_offsets import Fitted, fitted
from planner.calibrate.own_profile import own_profile, with_families
from planner.calibrate.print_log import Logged, Print, logged, lost_pieces, read_log

__all__ = [
    "Coupon",
    "FamilyRisk",
    "Fitted",
    "Logged",
    "Print",
    "Reading",
    "Readings",
    "append_print",
    "coupon",
    "family_risks",
    "fitted",
    "logged",
    "lost_pieces",
    "own_profile",
    "read_log",
    "read_readings",
    "readings_text",
    "with_families",
    "write_coupon",
]
