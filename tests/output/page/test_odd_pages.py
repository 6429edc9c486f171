"""Pages of jobs that are hostile, broken or empty: they open, answer, and run nothing that is not ours."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from planner.output import page
from planner.plan import Prepared, make_plan, prepare
from tests.conftest import TODAY, MakeJob
from tests.output.opened_page import Opened
from tests.output.page.compared import first_screen_says_it_all, fit_of, grave_of, says_what_check_says
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
    assert there.tab.locator("#hardware-rows tr").count() == 2  # the screw, and the washer under its head
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


ODD_NAMES = (
    'say "ah" & <b>so</b>',
    "it's  two spaces",
    "flamingo \U0001f9a9",
    "\u05d6\u05e8\u05d5\u05e2 12",
    "\ue0000\ue001 \ue0009\ue001",
)
"""Quotes and markup, spaces that a browser would fold, an emoji, right-to-left text, marks of our own text slots."""


def _toml(name: str) -> str:
    """Return a text as TOML writes it."""
    return json.dumps(name, ensure_ascii=False)


def _odd_job(make_job: MakeJob, what: str) -> Prepared:
    """Return a job that is odd in one way."""
    start = "[job]\nname = 'odd'\nmaterial = 'petg'\n"
    plate, box = bored_plate(40, 30, 8, [(20, 15, 6.35, 48)]), cuboid(20, 10, 3)
    if what == "names":
        parts = "".join(f"[[part]]\nname = {_toml(n)}\nmesh = 'a.stl'\nduty = 'load'\n" for n in ODD_NAMES)
        screws = "".join(
            f"[[hardware]]\nname = {_toml(n + ' screw')}\nkind = 'machine-screw'\ndiameter_mm = 6.0\nbore_mm = 6.35\n"
            f"fit = 'sliding'\nstack_mm = 8.0\njoins = [{_toml(n)}]\n"
            for n in ODD_NAMES
        )
        return prepare(make_job(start + parts + screws, a=plate), TODAY)
    if what == "thirty parts":
        parts = "".join(
            f"[[part]]\nname = 'part {n}'\nmesh = '{'ab'[n % 2]}.stl'\nduty = '{('cover', 'load')[n % 3 == 0]}'\n"
            for n in range(30)
        )
        return prepare(make_job(start + parts, a=plate, b=box), TODAY)
    parts = "[[part]]\nname = 'a'\nmesh = 'a.stl'\nduty = 'load'\n[[part]]\nname = 'b'\nmesh = 'b.stl'\n"
    job = make_job(start + parts, a=plate, b=cuboid(2, 1, 0.3) if what == "a hold" else box)
    if what == "a hold":  # an open mesh, a bore that nothing claims, a part that is tiny for its unit
        raw = bytearray((job.path.parent / "a.stl").read_bytes())
        raw[80:84] = (int.from_bytes(raw[80:84], "little") - 2).to_bytes(4, "little")
        (job.path.parent / "a.stl").write_bytes(raw[:-100])
    return prepare(job, TODAY)


@pytest.mark.parametrize("what", ["nothing but meshes", "a hold", "thirty parts", "names"])
def test_odd_jobs_are_judged_as_check_judges_them(chromium: Any, make_job: MakeJob, tmp_path: Path, what: str) -> None:
    """Verdict, findings, words and lists at eight sizes; every part can be chosen and is shown by its very name."""
    ready = _odd_job(make_job, what)
    plan = make_plan(ready)
    there = _opened(chromium, page(plan), tmp_path)
    low, high = there.tab.evaluate("['min', 'max'].map((end) => Number(document.getElementById('slider')[end]))")
    for percent in [low, *(round(low + (high - low) * step / 7, 1) for step in range(1, 7)), high]:
        shown = there.tab.evaluate("p => tried(p)", percent)
        says_what_check_says(shown, fit_of(ready, percent), ready.job, percent)
        there.try_size(percent)
    for part in plan.job.parts:
        there.tab.evaluate(
            "n => { const e = document.getElementById('which'); e.value = n; e.dispatchEvent(new Event('change')); }",
            part.name,
        )
        assert part.name in there.tab.get_attribute("#turn", "aria-label")
    names = there.tab.locator(".part h4 bdi").all_text_contents()  # each name keeps its own direction of reading
    assert names == [part.name for part in plan.job.parts]
    there.tab.wait_for_timeout(200)
    assert there.tab.evaluate("document.documentElement.scrollWidth") <= 1280
    assert (there.wrong, there.outside) == ([], [])
    there.tab.close()


@pytest.mark.parametrize("verdict", ["go", "hold"])
def test_the_first_screen_holds_long_names_too(chromium: Any, make_job: MakeJob, tmp_path: Path, verdict: str) -> None:
    """A job's name of 240 letters, a part's of 90: the first screen stands, at a go and at a hold with grams withheld."""
    name = "a long name of a part, " * 4
    text = f"[job]\nname = '{'reacher for the garden, ' * 10}'\nmaterial = 'petg'\n[[part]]\nname = '{name}'\nmesh = 'a.stl'\nduty = 'cover'\n"
    job = make_job(text, a=cuboid(30, 20, 5))
    if verdict == "hold":
        raw = bytearray((tmp_path / "a.stl").read_bytes())
        raw[80:84] = (int.from_bytes(raw[80:84], "little") - 2).to_bytes(4, "little")
        (tmp_path / "a.stl").write_bytes(raw[:-100])
    plan = make_plan(prepare(job, TODAY))
    assert plan.verdict.value == verdict
    file = tmp_path / "long.html"
    file.write_text(page(plan), encoding="utf-8")
    context = chromium.new_context(viewport={"width": 1280, "height": 800})
    there = Opened(context.new_page(), file)

    first_screen_says_it_all(there.tab, plan)
    assert grave_of(there.tab) == []
    assert there.tab.evaluate("document.documentElement.scrollWidth") <= 1280
    assert there.wrong == []
    context.close()
