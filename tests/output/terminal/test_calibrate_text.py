"""A calibration in a terminal: each number before and now, with its interval."""

from __future__ import annotations

from dataclasses import replace

from planner.calibrate import Print, logged
from planner.job import Printer
from planner.output import show_logged
from tests.output.terminal.consoles import console


def test_a_log_is_shown_with_its_failures(printer: Printer) -> None:
    """Six plates of 4 h each, one failed: hours, and the cause with its count."""
    done = Print(
        plate="p", planned_h=4.0, real_h=5.0, planned_g=None, real_g=None, failed=False, cause="", failed_at_h=None
    )
    prints = [done] * 5 + [replace(done, real_h=None, failed=True, cause="loose", failed_at_h=2.0)]
    out, written = console()
    show_logged(out, printer, logged(prints, printer.failure_per_hour, "log"), ())
    text = written.getvalue()

    assert "6 plates logged" in text
    assert "actual hours / planned hours" in text
    assert "1.250" in text
    assert "1 failed: 1 x loose" in text
