"""Sizes that work in a terminal: a bar for each range, and the cause at each end."""

from __future__ import annotations

from dataclasses import replace

from planner.output.terminal.window_text import CELLS, HIGH, LOW, bar, show_limits, show_widenings, show_window
from planner.plan import Plan, prepare
from planner.size import Interval, Reach, Widening, part_window, window
from tests.conftest import TODAY, MakeJob
from tests.output.terminal.consoles import console
from tests.shapes import bored_plate, cuboid


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
    nearest = plan.window.workable.nearest
    assert nearest is not None
    wider = replace(nearest, low_percent=70.0)
    step = Widening(what="take a cord of 0.8 mm for pull cord", interval=wider, gain_percent=20.0, reaches=False)
    show_widenings(out, plan.scale_percent, plan.window, [step])
    text = written.getvalue()

    assert "Every feature that sets a limit" in text
    assert "What would allow more sizes" in text
    assert max(map(len, text.splitlines())) <= 80


def test_what_ends_every_size_comes_before_what_is_open(make_job: MakeJob) -> None:
    """A tray that no bed takes fails; three bores alike that ask say so once, after it; no name is broken in the middle."""
    text = '[job]\nname = "x"\nmaterial = "petg"\nprinter = "bench-220"\n' + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "cover"\n'
        for name in ("a_plate_with_three_bores", "tray")
    )
    open_bores = (
        '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.0\nfit = "sliding"\n'
        'joins = ["a_plate_with_three_bores"]\n'
    )
    plate = bored_plate(60, 20, 5, [(x, 2.6, 3.0, 32) for x in (10, 30, 50)])
    ready = prepare(make_job(text + open_bores, a_plate_with_three_bores=plate, tray=cuboid(600, 40, 4)), TODAY)
    found = window(ready.bound.rules, 100.0)
    parts = [part_window(ready.bound.rules, 100.0, name) for name in ("a_plate_with_three_bores", "tray")]
    out, written = console()
    show_window(out, "x", 100.0, found, parts)
    lines = [line.rstrip() for line in written.getvalue().splitlines()]

    assert found.workable.nearest is None
    assert lines[lines.index(next(line for line in lines if "fails:" in line))].lstrip().startswith("fails: tray")
    assert sum("M3 screw" in line or "screw in 3" in line for line in lines) <= 2
    assert any(line.lstrip().startswith("a_plate_with_three_bores ") for line in lines)
    assert max(map(len, lines)) <= 80
