"""What a page shows at first and answers when its slider is moved, against what the rooms say; and for whom."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planner.job import Job
from planner.output.words import wording
from planner.plan import Plan, Prepared
from planner.rules import USUAL, Checked, check, questions_of
from planner.supplies import built
from tests.shapes import DATA

AXE = DATA / "axe" / "axe.min.js"


def fit_of(ready: Prepared, percent: float) -> Checked:
    """Return what ``check`` says but for the settings, which a page has from the plan's layers and the slider leaves out."""
    return check(replace(ready.bound, settings=None), percent)


def says_what_check_says(shown: Any, meant: Checked, job: Job, percent: float) -> None:
    """Compare one answer of a page's script: verdict, every finding in its order, questions, bag and cut list."""
    assert shown["verdict"] == meant.verdict.value
    assert shown["questions"] == list(questions_of(meant.findings))
    assert len(shown["findings"]) == len(meant.findings)
    for one, other in zip(shown["findings"], meant.findings, strict=True):
        assert (one["rule"], one.get("part", ""), one["verdict"]) == (other.rule, other.part, other.verdict.value)
        for key in ("feature", "why", "remedy", "caution", "source", "question"):
            assert one.get(key, "") == told(getattr(other, key)), (percent, key, one.get(key, ""))
        for key in ("measured", "limit"):
            value = getattr(other, key)
            assert one.get(key) == (value if value is None else pytest.approx(value, rel=1e-12, abs=1e-12))

    device = built(job, percent / 100.0, meant.findings)
    assert [(h["name"], h.get("length_mm"), h.get("why", ""), h["work"]) for h in shown["hardware"]] == [
        (h.name, h.length_mm, h.why, h.work) for h in device.hardware
    ]
    assert [(c["name"], c["why"]) for c in shown["cuts"]] == [(c.name, c.why) for c in device.cuts]


def told(caution: str) -> str:
    """Return what a page says at a size that is only tried: which findings rest on usual values it tells for its own."""
    return "" if caution == USUAL else caution


def first_screen_says_it_all(tab: Any, plan: Plan, height: int = 800) -> None:
    """At the top of the page, without scrolling: verdict, scale, first cause, hours, grams, plates and cost, uncut."""
    tab.evaluate("window.scrollTo(0, 0)")
    places = ["#verdict .sign", "#verdict strong", "#verdict .why", "#first"]
    places += [f".figures > div:nth-child({n}) {what}" for n in range(1, 7) for what in ("dt", ".big", "small")]
    for place in places:
        box = tab.locator(place).bounding_box()
        assert box["y"] >= 0, place
        assert box["y"] + box["height"] <= height, place
        cut = "p => { const e = document.querySelector(p); return getComputedStyle(e).overflow !== 'visible' && e.scrollHeight > e.clientHeight + 2; }"
        assert not tab.evaluate(cut, place), place
    totals, scale = plan.totals, f"{plan.scale_percent:.4g} %"
    assert f"{wording.VERDICTS[plan.verdict][0]} at {scale}" in tab.inner_text("#verdict strong")
    first = plan.findings[0]
    told = (first.why, first.remedy) if first.verdict.value != "go" else ("every check passes",)
    assert [words for words in told if words not in tab.text_content("#first")] == []
    assert tab.locator(".figures .big").all_inner_texts()[:5] == [
        scale,
        f"{totals.duration_s.value / 3600:.1f} h" if totals.duration_s else "withheld",
        wording.grams(totals.mass_g.value) if totals.mass_g else "withheld",
        str(len(plan.plates)),
        wording.money(plan.cost.delivered.value, plan.cost.currency) if plan.cost else "withheld",
    ]


COLOURS = ("color-contrast", "link-in-text-block")
"""Rules of axe-core that a scheme of colours can break."""
BOTH_SCHEMES: dict[str, tuple[str, ...]] = {"light": (), "dark": COLOURS}
"""All rules in the light; in the dark, those of colours."""


LAYOUT = ("scrollable-region-focusable", "target-size")
"""Rules of axe-core that a width can break."""


def grave_of(tab: Any, where: str = "html", only: tuple[str, ...] = ()) -> list[Any]:
    """Return what axe-core finds serious or critical in a place of the page as it stands, by all its rules or ``only`` some."""
    if not tab.evaluate("'axe' in window"):
        tab.add_script_tag(content=AXE.read_text(encoding="utf-8"))
    found = tab.evaluate(
        "([p, only]) => axe.run([...document.querySelectorAll(p)], {resultTypes: ['violations'], ...(only.length && {runOnly: only})})",
        [where, only],
    )
    return [
        (one["id"], one["help"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in found["violations"]
        if one["impact"] in ("serious", "critical")
    ]
