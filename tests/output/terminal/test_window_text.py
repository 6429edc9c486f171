"""Sizes that work in a terminal: a bar for each range, and the cause at each end."""

from __future__ import annotations

from planner.output.terminal.window_text import CELLS, HIGH, LOW, bar, show_limits, show_widenings, show_window
from planner.plan import Plan
from planner.size import Interval, Reach
from tests.output.terminal.consoles import console


def test_a_bar_marks_what_works_and_the_job() -> None:
    """Of 50 to 160 %, 105 % and more works: the right half is marked; the job's size is one stroke (by hand)."""
    reach = Reach(
        nearest=None,
        intervals=(Interval(low_percent=105.0, high_percent=None, low_cause=None, high_cause=None),),
        causes=(),
    )
    marks = bar(reach, 120.0)

    assert (LOW + HIGH) / 2 == 105.0
    assert len(marks) == CELLS
    assert marks[: CELLS // 2] == "." * (CELLS // 2)
    assert marks.count("|") == 1
    assert marks.count("#") == CELLS // 2 - 1


def test_both_ranges_and_every_part_are_shown(plan: Plan) -> None:
    """As it is and with work, what sets each limit, then each part, within 80 columns."""
    out, written = console()
    show_window(out, "Heron", plan.scale_percent, plan.window, plan.part_windows)
    text = written.getvalue()

    assert text.index("as it is") < text.index("with work") < text.index("Each part alone")
    assert "not smaller: " in text
    assert all(part.part in text for part in plan.part_windows)
    assert max(map(len, text.splitlines())) <= 80


def test_limits_and_what_would_help_fit_a_terminal(plan: Plan) -> None:
    """Each feature by name; each change with the sizes that it opens."""
    out, written = console()
    show_limits(out, plan.scale_percent, [(part.part, part) for part in plan.part_windows])
    show_widenings(out, plan.scale_percent, plan.window, plan.widenings)
    text = written.getvalue()

    assert "Every feature that sets a limit" in text
    assert "What would allow more sizes" in text
    assert max(map(len, text.splitlines())) <= 80
