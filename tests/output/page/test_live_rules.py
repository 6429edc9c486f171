"""The page's slider against ``check``: the same verdict, findings, numbers and words, in a real browser."""

from __future__ import annotations

import random
from typing import Any

import pytest

from planner.rules import check
from planner.size import nearest_percent
from tests.bench.every_case import every_case
from tests.output.conftest import JOBS, Reports
from tests.output.page.compared import fit_of, says_what_check_says, told
from tests.shapes import ROOT

SCRIPT = ROOT / "planner" / "output" / "page" / "script"
SIZES_N, ANEW_EACH = 20, 7


def sizes(low: float, high: float) -> list[float]:
    """Return twenty sizes: both ends, and tenths of a percent between."""
    dice = random.Random(7)  # noqa: S311  sizes, not secrets
    between = [dice.randint(int(10 * low) + 1, int(10 * high) - 1) / 10.0 for _ in range(SIZES_N - 2)]
    return [low, *sorted(between), high]


READ = """() => [...document.querySelectorAll('#all-list .finding')].map((li) => [li.dataset.rule, li.dataset.part, li.dataset.verdict,
  li.querySelector('.why').textContent, (li.querySelector('.do') || {textContent: ''}).textContent, (li.querySelector('.care') || {textContent: ''}).textContent])"""


@pytest.mark.parametrize("name", JOBS)
def test_the_slider_says_what_check_says(shared: Any, reports: Reports, name: str) -> None:
    """At 20 sizes of each of three jobs: verdict, every finding in its order, measured, limit, words and questions.

    In the suite at both ends and every other size between; at all with every case.
    """
    there = shared(name)
    there.tab.evaluate("document.getElementById('all-findings').open = true")
    low, high = there.tab.evaluate(
        "(() => { const s = document.getElementById('slider'); return [Number(s.min), Number(s.max)]; })()"
    )
    every = sizes(low, high)
    tried = every if every_case() else [*every[::2], high]
    for number, percent in enumerate(tried):
        # What is bound holds at every size; a few are bound anew as ``check --scale`` does, which takes most of the time.
        anew = number % ANEW_EACH == 0 or percent == high
        ready = reports.prepared(name, percent) if anew else reports.plan(name).stage.sized.ready
        meant = fit_of(ready, percent)
        there.try_size(percent)
        shown = there.tab.evaluate("p => tried(p)", percent)
        says_what_check_says(shown, meant, ready.job, percent)

        if abs(percent - reports.plan(name).scale_percent) > 0.05:  # there the plan itself stands on the page
            there.tab.wait_for_function("p => document.getElementById('all-list').dataset.percent == p", arg=percent)
            assert there.tab.evaluate(READ) == [
                [f.rule, f.part, f.verdict.value, f.why, f.remedy and f"Do: {f.remedy}", told(f.caution)]
                for f in meant.findings
            ]
            assert f"{percent:.4g} %" in there.tab.inner_text("#verdict strong")
            assert meant.verdict.value in (there.tab.get_attribute("#verdict", "class") or "").split()


def test_what_does_not_move_is_greyed_and_says_so(shared: Any) -> None:
    """Hours, grams, plates and cost keep their planned values, and the page says at which size they hold."""
    there = shared("heron")
    before = there.tab.inner_text(".figures")
    assert not there.tab.is_visible(".planned-note")
    there.try_size(95.0)

    assert there.tab.inner_text(".figures") == before
    assert "planned at 106.5 %" in there.tab.inner_text(".planned-note")
    assert there.tab.is_visible(".planned-note")
    there.tab.click("#back")
    assert not there.tab.is_visible(".planned-note")


def test_back_at_the_planned_size_the_plan_stands_again(shared: Any) -> None:
    """Away and back, the page reads as it did."""
    there = shared("heron")
    before = there.tab.evaluate("document.querySelector('main').innerText")
    for percent in (60.0, 150.0, 101.3):
        there.try_size(percent)
        assert there.tab.evaluate("document.querySelector('main').innerText") != before
    there.tab.click("#back")

    assert there.tab.evaluate("document.querySelector('main').innerText") == before


def test_the_nearest_size_is_the_same(shared: Any, reports: Reports) -> None:
    """Where a size does not work, the page names the nearest that does, as ``check`` does."""
    there, plan = shared("heron"), reports.plan("heron")
    for percent in (50.0, 99.9, 130.0, 205.0):
        there.try_size(percent)
        ends = [
            (abs(percent - end), end)
            for i in plan.window.passes.intervals
            for end in (i.low_percent, i.high_percent)
            if end
        ]
        named = there.tab.inner_text("#tried-note")
        shown = float(named.split(": ")[1].removesuffix(" %"))

        assert abs(shown - min(ends)[1]) < 0.11
        # The plan's own rules are bound anew once, as ``check --scale`` does: that they hold at every size is tested above.
        ready = reports.prepared("heron", shown) if percent == 205.0 else plan.stage.sized.ready
        assert check(ready.bound, shown).verdict.passes
        if nearest_percent(plan.window.passes, percent) is not None:
            assert shown <= 210.0


def test_numbers_are_printed_as_python_prints_them(chromium: Any) -> None:
    """Four thousand numbers, ties among them, in every format that rules use (Python's own format is the measure)."""
    dice = random.Random(3)  # noqa: S311  numbers, not secrets
    numbers = [dice.uniform(-200, 200) * 10 ** dice.randint(-7, 5) for _ in range(500)]
    numbers += [dice.randint(-4000, 4000) / 8 for _ in range(200)] + [
        0.5,
        1.5,
        2.5,
        -0.5,
        0.125,
        0.375,
        1e-5,
        123456.5,
        999999.5,
        0.0,
    ]
    cases = [(x, spec) for x in numbers for spec in (".0f", ".1f", ".2f", ".3f", ".6f", ".9f", "g", ".3g", ".4g")]
    tab = chromium.new_page()
    tab.add_script_tag(content=(SCRIPT / "number.js").read_text(encoding="utf-8"))
    shown = tab.evaluate("cases => cases.map(([x, spec]) => printed(x, spec))", cases)
    tab.close()

    wrong = [(x, spec, one) for (x, spec), one in zip(cases, shown, strict=True) if one != format(x, spec)]
    assert wrong == []
