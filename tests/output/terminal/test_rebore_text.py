"""Re-boring in a terminal: openings before and after, and the sizes that work before and after."""

from __future__ import annotations

from pathlib import Path

from planner.output import show_rebored
from planner.plan import prepare, prepare_rebored
from planner.rules import check
from planner.size import window
from tests.conftest import TODAY, MakeJob
from tests.output.terminal.consoles import console
from tests.shapes import bored_plate

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = 80.0\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a"]\ncount = 1\nbore_mm = 3.4\n'
    'fit = "sliding"\nstack_mm = 8.0\n'
)


def test_a_bore_is_shown_before_and_after(make_job: MakeJob) -> None:
    """3.4 mm at 80 % is 2.72 mm (by hand); afterwards it is larger than the screw of 3 mm."""
    before = prepare(make_job(TEXT, a=bored_plate(60, 40, 8, [(20, 20, 3.4, 96)])), TODAY)
    result, after = prepare_rebored(before)
    checked = check(before.bound, 80.0), check(after.bound, 100.0)
    windows = window(before.bound.rules, 80.0), window(after.bound.rules, 100.0)
    out, written = console()
    show_rebored(out, result.changes, 80.0, checked, windows, Path("small"))
    text = written.getvalue()

    assert result.changes[0].after_mm > 3.0
    assert "2.72 mm" in text
    assert f"{result.changes[0].after_mm:.2f} mm" in text
    assert text.index("sizes that worked before") < text.index("sizes that work now")
    assert max(map(len, text.splitlines())) <= 80
