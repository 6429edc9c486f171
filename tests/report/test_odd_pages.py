"""Pages of jobs that are hostile, broken or empty: they open, answer, and run nothing that is not ours."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from planner.plan import make_plan
from planner.prepare import prepare
from planner.report import page
from tests.conftest import MakeJob
from tests.report.conftest import TODAY, Opened
from tests.shapes import bored_plate, cuboid

HOSTILE = "</script><img src=x onerror=alert(1)>"


def _opened(chromium: Any, text: str, folder: Path) -> Opened:
    """Open a page's text in a new tab, move its slider about, turn a part."""
    file = folder / "odd.html"
    file.write_text(text, encoding="utf-8")
    there = Opened(chromium.new_page(), file)
    there.tab.on("dialog", lambda dialog: there.wrong.append(dialog.message))
    there.tab.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    there.tab.evaluate("document.getElementById('look').scrollIntoView()")
    for percent in (70.0, 95.0, 140.0):
        there.try_size(percent)
        there.tab.wait_for_timeout(150)
    there.tab.focus("#turn") if there.tab.is_visible("#turn") else None
    return there


def test_hostile_names_stay_names(chromium: Any, make_job: MakeJob, tmp_path: Path) -> None:
    """Markup in the names of job, part and hardware is shown, never run, also after the slider moved."""
    text = (
        f"[job]\nname = '{HOSTILE}'\nmaterial = 'petg'\n[[part]]\nname = '{HOSTILE}'\nmesh = 'a.stl'\nduty = 'load'\n"
        f"[[hardware]]\nname = '{HOSTILE}'\nkind = 'machine-screw'\ndiameter_mm = 6.0\nbore_mm = 6.35\nfit = 'sliding'\njoins = ['{HOSTILE}']\ncount = 1\n"
    )
    job = make_job(text, a=bored_plate(40, 30, 8, [(20, 15, 6.35, 48)]))
    there = _opened(chromium, page(make_plan(prepare(job, TODAY))), tmp_path)

    assert there.tab.locator("img[src='x']").count() == 0
    assert HOSTILE in there.tab.inner_text("h1")
    assert there.tab.locator("#hardware-rows tr").count() == 1
    assert (there.wrong, there.outside) == ([], [])
    there.tab.close()


@pytest.mark.parametrize("what", ["no plate", "open mesh", "flat"])
def test_broken_jobs_have_a_page_that_works(chromium: Any, make_job: MakeJob, tmp_path: Path, what: str) -> None:
    """A part that fits no bed, a mesh with a hole, a sheet without bores: the page answers without an error."""
    text = "[job]\nname = 'x'\nmaterial = 'petg'\n[[part]]\nname = 'a'\nmesh = 'a.stl'\nduty = 'cover'\n"
    job = make_job(text, a=cuboid(400 if what == "no plate" else 30, 20, 0.4 if what == "flat" else 5))
    if what == "open mesh":
        raw = bytearray((tmp_path / "a.stl").read_bytes())
        raw[80:84] = (int.from_bytes(raw[80:84], "little") - 2).to_bytes(4, "little")
        (tmp_path / "a.stl").write_bytes(raw[:-100])
    there = _opened(chromium, page(make_plan(prepare(job, TODAY))), tmp_path)

    assert (there.wrong, there.outside) == ([], [])
    there.tab.close()
