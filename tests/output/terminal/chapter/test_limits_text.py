"""What limits a chapter, in sentences."""

from __future__ import annotations

from planner.output.terminal.chapter.limits_text import buy_lines, late_lines, limit_lines, running_lines

SUMS = {
    "late": [{"job": "R-04", "days": 2, "why": "the device is ready on Thu 3 Dec, 2 d after the deadline"}],
    "bottleneck": {
        "what": "hands",
        "short": "12 h of a maker short by Sun 20 Dec",
        "buys": [
            {"what": "one more helper", "days": 3, "devices": 0},
            {"what": "one more printer", "days": 0, "devices": 0},
        ],
        "how": "each was planned again in short, from a few orders of work",
    },
    "running": [{"plate": "R-01.2", "printer": "bench-1", "end": "2026-12-01T18:30:00"}],
}


def test_lateness_its_reason_and_what_would_help_are_told() -> None:
    """The worst first; one more of each, also what would not help, and how sure that is."""
    assert late_lines(SUMS) == ["HOLD R-04: the device is ready on Thu 3 Dec, 2 d after the deadline"]
    assert limit_lines(SUMS) == [
        "hands: 12 h of a maker short by Sun 20 Dec",
        "One more helper: about 3 fewer days late",
        "One more printer: no day that this comparison finds",
        "Each was planned again in short, from a few orders of work",
    ]
    assert running_lines(SUMS) == ["R-01.2 on bench-1 until Tue 1 Dec 18:30"]
    assert limit_lines({"bottleneck": None}) == []


def test_what_is_to_be_bought_is_told_with_the_day_to_order_it() -> None:
    """In time, with no day of need, and where nobody says how long a delivery takes; a plan without a list tells nothing."""
    row = {"item": "webbing 25 mm", "unit": "m", "n": 1.282, "need_n": 1.782, "have_n": 0.5, "jobs": ["R-01", "R-02"]}
    told = "webbing 25 mm: 1.282 m more (1.782 needed, 0.5 in stock) for R-01 and R-02"
    days = {"by": "2026-12-14", "order_by": "2026-12-07", "slack_days": 3}
    rows = [row | days, row | days | {"order_by": None}, row | {"by": None}]
    assert buy_lines({"buy": rows}) == [
        f"{told} by Mon 14 Dec: order by Mon 7 Dec, 3 days from now",
        f"{told} by Mon 14 Dec; how long a delivery takes is not stated",
        f"{told}, by no known day",
    ]
    assert buy_lines({}) == []
