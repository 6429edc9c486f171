"""What limits a chapter, in sentences."""

from __future__ import annotations

from planner.output.terminal.chapter.limits_text import late_lines, limit_lines, running_lines

SUMS = {
    "late": [{"job": "R-04", "days": 2, "why": "the device is ready on Thu 3 Dec, 2 d after the deadline"}],
    "bottleneck": {
        "what": "hands",
        "short": "12 h of a maker short by Sun 20 Dec",
        "buys": [
            {"what": "one more helper", "days": 3, "devices": 0},
            {"what": "one more printer", "days": 0, "devices": 0},
        ],
    },
    "running": [{"plate": "R-01.2", "printer": "bench-1", "end": "2026-12-01T18:30:00"}],
}


def test_lateness_its_reason_and_what_would_help_are_told() -> None:
    """The worst first; one more of each, also what would not help."""
    assert late_lines(SUMS) == ["HOLD R-04: the device is ready on Thu 3 Dec, 2 d after the deadline"]
    assert limit_lines(SUMS) == [
        "hands: 12 h of a maker short by Sun 20 Dec",
        "One more helper: 3 fewer days late",
        "One more printer: no day",
    ]
    assert running_lines(SUMS) == ["R-01.2 on bench-1 until Tue 1 Dec 18:30"]
    assert limit_lines({"bottleneck": None}) == []
