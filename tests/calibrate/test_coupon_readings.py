"""Readings: what coupon writes calibrate reads, and a slip is one sentence."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.calibrate import coupon, fitted, read_readings, readings_text
from planner.errors import ProfileError

FEATURES = coupon(0.45).features


DAY = date(2026, 11, 25)


def test_a_blank_file_reads_back_and_is_told_to_be_empty(tmp_path: Path) -> None:
    """What coupon writes, calibrate reads; nothing filled in keeps everything as it was, and says so."""
    path = tmp_path / "r.toml"
    path.write_text(readings_text(FEATURES, "bench-220", "petg", 0.4, DAY), encoding="utf-8")
    read = read_readings(path)
    found = fitted(read.readings, "test")

    assert [one.feature.name for one in read.readings] == [one.name for one in FEATURES]
    assert found.upright_mm is None
    assert any("3 are needed" in note for note in found.notes)


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("measured_mm = 0.48", "cannot be"),
        ("measured_mm = 48.0", "cannot be"),
        ("measured_mm = -4.8", "cannot be"),
        ('measured_mm = "4.8"', "number"),
        ("mesured_mm = 4.8", "measured_mm"),
    ],
)
def test_a_slip_is_one_sentence(line: str, word: str, tmp_path: Path) -> None:
    """Cm, a wrong comma, a minus, a text and a mistyped key are named."""
    text = readings_text(FEATURES, "bench-220", "petg", 0.4, DAY)
    at = text.index('feature = "upright 5"')
    head, rest = text[:at], text[at:]
    path = tmp_path / "r.toml"
    path.write_text(head + rest.replace("# measured_mm = 0.00", line, 1), encoding="utf-8")
    with pytest.raises(ProfileError, match=word):
        read_readings(path)
