"""The coupon's files: a form that somebody filled in is never written over."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from planner.calibrate import coupon, write_coupon

DAY = date(2026, 12, 1)


def _written(folder: Path, day: date = DAY) -> tuple[Path, Path]:
    return write_coupon(folder, coupon(0.45), printer="p", material="petg", nozzle_mm=0.4, day=day)


def test_an_untouched_form_is_renewed(tmp_path: Path) -> None:
    """Another day alone is no reading: the same file is written again."""
    assert _written(tmp_path)[1] == _written(tmp_path, date(2026, 12, 2))[1]


def test_a_filled_in_form_stays(tmp_path: Path) -> None:
    """One reading written by hand: the file stays to the byte, and a new form lies beside it."""
    _, form = _written(tmp_path)
    filled = form.read_text(encoding="utf-8").replace("# measured_mm = 0.00", "measured_mm = 4.80", 1)
    form.write_text(filled, encoding="utf-8")
    _, other = _written(tmp_path)

    assert other != form
    assert form.read_text(encoding="utf-8") == filled
