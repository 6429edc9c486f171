"""What somebody sees who looks at the page: units whole, nothing cut, sizes in figures, one filter, names of their own."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from planner.output import page
from planner.output.paper_files.line_breaks import NO_WORDS
from planner.plan import make_plan, prepare
from tests.conftest import TODAY, MakeJob
from tests.output.conftest import JOBS, Reports
from tests.output.opened_page import Opened
from tests.shapes import bored_plate

BROKEN = r"""() => { const found = [];
  const unit = /\d[ \u00a0](?:mm[²³]?|cm³|g|N|h|min|s|°C|%|EUR|MPa)(?![\w²³·])/g;
  const walk = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    if (node.parentElement.closest('code, script, svg, option, .unseen, [hidden]')) continue;
    for (const one of node.data.matchAll(unit)) {
      const range = document.createRange();
      range.setStart(node, one.index); range.setEnd(node, one.index + one[0].length);
      const tops = [...range.getClientRects()].filter((r) => r.width).map((r) => Math.round(r.top));
      if (new Set(tops).size > 1) found.push(node.data.slice(one.index - 10, one.index + 12));
    }
  }
  return found; }"""
"""Numbers whose unit stands on another line."""
CUT = """() => [...document.querySelectorAll('main *')].filter((e) => !e.closest('[hidden], svg, .unseen') && e.clientWidth > 8 &&
  ['hidden', 'clip'].includes(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth + 1).map((e) => e.outerHTML.slice(0, 120))"""
"""Elements that cut their content off at the side."""
NAMES = """() => { const seen = new Map();
  for (const e of document.querySelectorAll('a[href], button, input, select, summary, [role=region], canvas')) {
    if (e.closest('[hidden]')) continue;
    const name = e.getAttribute('aria-label') || e.labels?.[0]?.textContent || e.textContent;
    const key = `${e.tagName} ${name.trim().replace(/\\s+/g, ' ')}`;
    seen.set(key, (seen.get(key) ?? 0) + 1);
  }
  return [...seen].filter(([, n]) => n > 1); }"""
"""What a screen reader would call by one name."""
CONTRAST = """() => { const style = getComputedStyle(document.documentElement);
        const bright = (hex) => { const full = hex.length === 4 ? [...hex].slice(1).map((c) => c + c).join('') : hex.slice(1);
          return [0, 2, 4].map((k) => parseInt(full.slice(k, k + 2), 16) / 255)
            .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)).reduce((sum, c, k) => sum + c * [0.2126, 0.7152, 0.0722][k], 0); };
        const [a, b] = ['--hatch', '--paper'].map((name) => bright(style.getPropertyValue(name).trim())).sort((x, y) => y - x);
        return (a + 0.05) / (b + 0.05); }"""
"""The ratio of contrast of hatching to its ground, as WCAG 2.2 defines it."""
OFF = """async () => { const found = [];
  for (const why of document.querySelectorAll('details.why')) {
    why.open = true;
    const box = why.querySelector('.slip').getBoundingClientRect();
    if (box.left < 0 || box.right > document.documentElement.clientWidth) found.push(why.textContent.slice(0, 40));
    why.open = false;
  }
  return found; }"""
"""What stands beside the screen, of all that a figure says when asked why."""
SCROLLED = """() => [...document.querySelectorAll('svg *')].filter((e) => ['auto', 'scroll'].includes(getComputedStyle(e).overflowX))
  .map((e) => e.outerHTML.slice(0, 120))"""
OPEN = "document.querySelectorAll('details:not(.why)').forEach((d) => { d.open = true; })"


@pytest.mark.parametrize("width", [390, 1280])
def test_no_number_parts_from_its_unit(shared: Any, width: int) -> None:
    """SI Brochure, 9th edition, 5.4.3: as planned and at a size that is tried, with every detail open."""
    there = shared("heron", width)
    there.tab.evaluate(OPEN)
    assert there.tab.evaluate(BROKEN) == []
    there.try_size(88.0)
    there.tab.wait_for_function("() => document.getElementById('all-list').dataset.percent == 88")
    assert there.tab.evaluate(BROKEN) == []


def test_every_control_has_a_name_of_its_own(shared: Any) -> None:
    """Links, buttons, summaries, fields and regions: a list of them tells each from the next (WCAG 2.2, 2.4.6 and 2.4.9)."""
    there = shared("heron")
    there.tab.evaluate(OPEN)
    assert there.tab.evaluate(NAMES) == []
    there.try_size(88.0)
    there.tab.wait_for_function("() => document.getElementById('all-list').dataset.percent == 88")
    assert there.tab.evaluate(NAMES) == []


def test_long_names_neither_run_off_nor_are_cut(chromium: Any, make_job: MakeJob, tmp_path: Path) -> None:
    """A word of 76 letters and a name of 100, in part, hardware and lists, from phone to wide screen."""
    word, name = "Abdeckungshalterungsunterteil" * 2 + "verriegelungsplatte", "part-exported-as-version-" * 4
    job = make_job(
        f"[job]\nname = '{name}'\nmaterial = 'petg'\n[[part]]\nname = '{word}'\nmesh = 'a.stl'\nduty = 'load'\n"
        f"[[part]]\nname = '{name}'\nmesh = 'a.stl'\nduty = 'load'\n[[hardware]]\nname = '{word} screw'\n"
        f"kind = 'machine-screw'\ndiameter_mm = 6.0\nbore_mm = 6.35\nfit = 'turning'\njoins = ['{word}', '{name}']\n",
        a=bored_plate(40, 30, 8, [(20, 15, 6.35, 48)]),
    )
    file = tmp_path / "long.html"
    file.write_text(page(make_plan(prepare(job, TODAY))), encoding="utf-8")
    there = Opened(chromium.new_page(), file)
    there.tab.evaluate(OPEN)
    for width in (390, 768, 1280):
        there.tab.set_viewport_size({"width": width, "height": 800})
        assert there.tab.evaluate("document.documentElement.scrollWidth") <= width
        assert there.tab.evaluate(CUT) == []
    assert there.wrong == []
    there.tab.close()


def test_the_filter_finds_among_all_checks(shared: Any) -> None:
    """By words, by verdict and by part in both long lists; counts are told, nothing that decides is hidden, all comes back."""
    there = shared("heron")
    total = there.tab.locator("#all-list .finding").count() + there.tab.locator("#print-list .finding").count()
    decides = there.tab.locator("#fit-decides > .findings > .finding").count()

    there.tab.fill("#find-text", "yoke 3.10")
    there.tab.wait_for_function("() => document.getElementById('found').textContent !== ''")
    shown = there.tab.locator("#all-list .finding:not([hidden])")
    assert 0 < shown.count() < total
    assert all("yoke" in text for text in shown.all_text_contents())
    assert f"{shown.count()} of" in there.tab.inner_text("#found")
    there.tab.select_option("#find-verdict", "no-go")
    there.tab.wait_for_function("() => document.querySelectorAll('#all-list .finding:not([hidden])').length === 0")
    assert there.tab.locator("#fit-decides > .findings > .finding:visible").count() == decides
    there.tab.click("#finder button[type=reset]")
    there.tab.wait_for_function("() => document.getElementById('found').textContent === ''")
    assert there.tab.locator(".finding[hidden]").count() == 0


@pytest.mark.parametrize(("words", "where"), [("glue", "Assemble"), ("two knots", "Finish")])
def test_a_word_that_no_check_holds_is_found_in_the_rest_of_the_page(shared: Any, words: str, where: str) -> None:
    """What a maker looks for leads to the station whose text says it, opened there."""
    there = shared("heron")
    there.tab.fill("#find-text", words)
    there.tab.wait_for_function("() => document.getElementById('found').textContent !== ''")
    there.tab.click(f"#found a:has-text('in the text of {where}')")

    assert there.tab.inner_text("#found").startswith("0 of")
    there.tab.click("#finder button[type=reset]")


def test_sizes_stand_as_figures_and_the_person_on_the_track(shared: Any, reports: Reports) -> None:
    """Each part's go sizes are words beside its bar; the span that fits the person is drawn where the track has it."""
    there, plan = shared("heron"), reports.plan("heron")
    text = there.tab.inner_text(".chart")
    person = plan.window.person
    assert person is not None
    ends = (person.intervals[0].low_percent, person.intervals[0].high_percent)
    box, mark = (there.tab.locator(where).first.bounding_box() for where in (".rail .bar", ".rail .bar s"))
    low, high = (float(there.tab.get_attribute("#slider", end)) for end in ("min", "max"))

    assert "102.9 to 113.3" in text  # the cuff's
    for end, x in zip(ends, (mark["x"], mark["x"] + mark["width"]), strict=True):
        assert end is not None
        assert x == pytest.approx(box["x"] + box["width"] * (end - low) / (high - low), abs=3.0)
    assert "fits the person" in there.tab.inner_text(".who")


def test_no_gap_stands_before_the_picture(shared: Any) -> None:
    """At 390 px the picture of the device follows the figures at once."""
    there = shared("heron", 390)
    figures, device = (there.tab.locator(where).bounding_box() for where in (".figures", "#device"))

    assert 0 <= device["y"] - (figures["y"] + figures["height"]) <= 40


def test_a_phone_reads_tables_without_scrolling_sideways(shared: Any) -> None:
    """At 390 px rows stand as blocks, each cell under its column's name, also after the slider moved."""
    there = shared("heron", 390)
    there.try_size(95.0)
    wide = "() => [...document.querySelectorAll('.wide')].filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.ariaLabel)"

    assert there.tab.evaluate(wide) == []
    assert there.tab.get_attribute("#hardware-rows tr:first-child td", "data-head") == "count"


def test_hatching_is_seen_without_colour(opened: Any) -> None:
    """Hatching stands off its ground by 3 to 1 at least, as WCAG 2.2 asks of graphics (1.4.11), so grey shows it too."""
    there = opened("heron")
    ratios = []
    for media in ({"color_scheme": "light"}, {"color_scheme": "dark"}, {"media": "print"}):
        there.tab.emulate_media(**media)
        ratios.append(there.tab.evaluate(CONTRAST))

    assert min(ratios) >= 3.0


def test_hardware_that_does_not_fit_is_marked(shared: Any) -> None:
    """On the page of a job that is no-go, the bag list marks the lines whose own bores do not pass, at a tried size too."""
    there = shared("child")
    there.try_size(70.0)
    shown = there.tab.evaluate("tried(70.0).hardware.filter((h) => h.fits === 'no-go').map((h) => h.name)")
    marked = there.tab.locator("#hardware-rows tr:has(.tag.no-go) th bdi").all_inner_texts()

    assert shown
    assert marked == shown


def test_what_a_figure_says_when_asked_why_stays_on_the_screen(shared: Any) -> None:
    """At 390, 768 and 1280 px, each figure's note lies within the page; and no word of a drawing moves as a box does."""
    there = shared("heron")
    for width in (390, 768, 1280):
        there.tab.set_viewport_size({"width": width, "height": 800})
        assert there.tab.evaluate(OFF) == [], width
    assert there.tab.evaluate(SCROLLED) == []


@pytest.mark.parametrize("name", JOBS)
def test_areas_and_volumes_carry_their_exponent(reports: Reports, name: str) -> None:
    """mm² and mm³ as such (ISO 80000-1, 7.2.1), in every text of the page and what its slider answers with."""
    html = NO_WORDS.sub(" ", reports.page(name).read_text(encoding="utf-8"))
    found = re.findall(r".{0,40}\b(?:[cm]?m[23])(?:/s)?\b.{0,20}", html)

    assert found == []
