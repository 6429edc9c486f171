"""The bag list: lengths go to the next stock size at this scale."""

from __future__ import annotations

from pathlib import Path

from planner.job import read_job
from planner.supplies import (
    hardware_list,
)


def test_lengths_go_to_the_next_stock(heron: Path) -> None:
    """14 mm x 1.065 = 14.9 -> 15 mm post; with its nut (ISO 4032, M3: 2.4 mm) 12 x 1.065 + 2.4 -> 16 mm."""
    lines = {line.name: line for line in hardware_list(read_job(heron), 1.065, ())}

    assert lines["pivot post"].length_mm == 15.0
    assert lines["knob screw"].length_mm == 16.0
    assert lines["anchor screw"].length_mm == 12.0
    assert lines["printed lock pin"].length_mm is None
    assert "stack_mm" in lines["printed lock pin"].why
