"""The page in a real browser: quick, quiet, for keyboard and reader, and turning parts that are cut where they are."""

from __future__ import annotations

import re
from itertools import product
from typing import Any

import pytest

from tests.output.conftest import Reports
from tests.output.page.compared import BOTH_SCHEMES, LAYOUT, first_screen_says_it_all, grave_of


def test_the_page_opens_within_two_seconds(shared: Any) -> None:
    """From the start of loading to a page that answers, in headless Chromium."""
    there = shared("heron")
    took = there.tab.evaluate("performance.getEntriesByType('navigation')[0].loadEventEnd")

    assert 0 < took < 2000


@pytest.mark.parametrize(("name", "verdict"), [("heron", "go-with-work"), ("child", "no-go"), ("folder", "hold")])
def test_the_first_screen_says_it_all(shared: Any, reports: Reports, name: str, verdict: str) -> None:
    """At 1280 x 800 without scrolling, for three jobs; a hold and a plain go are among the odd pages."""
    there, plan = shared(name), reports.plan(name)
    assert plan.verdict.value == verdict
    first_screen_says_it_all(there.tab, plan)
    for place in ("#sizer", "nav"):
        box = there.tab.locator(place).first.bounding_box()
        assert box["y"] + box["height"] <= 800, place


@pytest.mark.parametrize(("opened_at", "widths"), [(390, (390,)), (1280, (768, 1280, 1920))])
@pytest.mark.parametrize("name", ["heron", "folder"])
def test_nothing_runs_off_the_side(shared: Any, name: str, opened_at: int, widths: tuple[int, ...]) -> None:
    """From phone to wide screen the page is as wide as the window, all details open, at the planned size and at another."""
    for width in widths:
        there = shared(name, opened_at)
        there.tab.set_viewport_size({"width": width, "height": 800})
        assert there.tab.evaluate("document.documentElement.scrollWidth") <= width
        there.tab.evaluate("document.querySelectorAll('details:not(.why)').forEach((d) => { d.open = true; })")
        assert there.tab.evaluate("document.documentElement.scrollWidth") <= width
        there.try_size(88.0)
        assert there.tab.evaluate("document.documentElement.scrollWidth") <= width


TO_LOOK = "document.documentElement.style.scrollBehavior = 'auto'; document.getElementById('look').scrollIntoView()"
ALL_OPEN = """() => { document.head.insertAdjacentHTML('beforeend', '<style>details.why, .slip { position: static !important }</style>');
  document.querySelectorAll('details').forEach((d) => { d.removeAttribute('name'); d.open = true; }); }"""
"""Opens each detail and each reason: reasons stand one below the other then, and one look sees the colours of all."""


@pytest.mark.parametrize(("name", "width"), [("heron", 1280), ("child", 390)])
def test_axe_finds_nothing_serious(opened: Any, name: str, width: int) -> None:
    """Nothing serious or critical by axe-core: with work and no go, details and reasons open.

    At the planned size, and at another what it or a phone lays out otherwise; colours in the dark on one page at each.
    """
    there = opened(name, width, color_scheme="light")
    there.tab.evaluate(TO_LOOK)
    there.tab.evaluate(ALL_OPEN)
    assert there.tab.locator(".slip:visible").count() == there.tab.locator("details.why").count() > 0
    there.tab.select_option("#which", "jaw")
    looks: Any = ({"light": ()}, BOTH_SCHEMES) if width > 390 else (BOTH_SCHEMES, {"light": LAYOUT})
    for percent, faces, look in ((there.tab.input_value("#slider"), "strength", looks[0]), (88.0, "support", looks[1])):
        there.try_size(percent)
        there.tab.select_option("#faces", faces)
        for scheme, only in look.items():
            there.tab.emulate_media(color_scheme=scheme)
            assert grave_of(there.tab, "html", only) == [], (percent, scheme)


def test_one_reason_is_open_at_a_time(shared: Any) -> None:
    """Each reason opens over the page, and closes the one before."""
    for reason in (there := shared("heron")).tab.locator("details.why").element_handles():
        reason.evaluate("(e) => { e.open = true; }")
        assert there.tab.locator(".slip:visible").count() == 1


def test_the_keyboard_reaches_everything(opened: Any) -> None:
    """Tab goes from the skip link past reasons, slider and stations to the turning part, and out at the end."""
    there = opened("heron")
    there.tab.evaluate("document.documentElement.style.scrollBehavior = 'auto'")
    order: list[str] = []
    for _ in range(220):
        there.tab.keyboard.press("Tab")
        order.append(
            there.tab.evaluate(
                "(() => { const e = document.activeElement; return e === document.body ? 'out' : e.id || e.tagName + ':' + e.textContent.slice(0, 20); })()"
            )
        )
        if order[-1] == "out":
            break
    meant = ["slider", "which", "faces", "turn", "height"]

    assert order[0].startswith("A:Skip")
    assert sum(one.startswith("SUMMARY:why:") for one in order) == 6
    assert [one for one in order if one in meant] == meant
    assert order[-1] == "out"


def test_the_slider_and_reasons_work_by_keys(opened: Any) -> None:
    """Arrow keys move by a tenth of a percent, Enter opens a reason and follows a station."""
    there = opened("heron")
    there.tab.focus("#slider")
    there.tab.keyboard.press("ArrowRight")
    assert there.tab.inner_text("#tried-size") == "106.6 %"
    there.tab.keyboard.press("ArrowLeft")
    assert there.tab.inner_text("#tried-size") == "106.5 %"
    there.tab.keyboard.press("End")
    assert "No go" in there.tab.get_attribute("#slider", "aria-valuetext")
    there.tab.keyboard.press("Shift+Tab")
    there.tab.keyboard.press("Enter")  # back to the planned size
    assert there.tab.inner_text("#tried-size") == "106.5 %"
    there.tab.focus(".figures summary")
    there.tab.keyboard.press("Enter")
    assert "stated in the job" in there.tab.inner_text(".figures .slip")
    there.tab.keyboard.press("Escape")
    assert not there.tab.is_visible(".figures .slip")
    there.tab.focus("nav a[href='#print']")
    there.tab.keyboard.press("Enter")
    assert there.tab.url.endswith("#print")


def _picture(there: Any) -> bytes:
    """Return the turning part as it is drawn now."""
    there.tab.wait_for_timeout(150)
    shot: bytes = there.tab.locator("#turn").screenshot()
    return shot


def test_a_part_turns_by_mouse_finger_and_keys(opened: Any) -> None:
    """Each way of turning changes the picture, and Home looks from the front right again."""
    there = opened("heron", has_touch=True)
    there.tab.evaluate(TO_LOOK)
    there.tab.select_option("#which", "jaw")
    front = _picture(there)
    there.tab.focus("#turn")
    there.tab.keyboard.press("ArrowLeft")
    by_key = _picture(there)
    there.tab.keyboard.press("Home")
    assert _picture(there) == front
    box = there.tab.locator("#turn").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    there.tab.mouse.move(x, y)
    there.tab.mouse.down()
    there.tab.mouse.move(x + 80, y + 10, steps=4)
    there.tab.mouse.up()
    by_mouse = _picture(there)
    touch = there.tab.context.new_cdp_session(there.tab)
    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for step in range(1, 6):
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x - 20 * step, "y": y}]})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    by_finger = _picture(there)

    assert len({front, by_key, by_mouse, by_finger}) == 4


def test_a_section_is_where_the_engine_cuts(shared: Any, reports: Reports) -> None:
    """Bounds and hatched area of a section against the solid modeller's own, at several heights of three parts."""
    there = shared("heron")
    there.tab.evaluate(TO_LOOK)
    for part in reports.plan("heron").parts:
        if part.part.name not in ("cuff", "deck", "guide"):
            continue
        there.tab.select_option("#which", part.part.name)
        body = part.posed.manifold
        assert body is not None
        for share in (0.155, 0.5, 0.805):
            there.tab.evaluate(
                "v => { const e = document.getElementById('height'); e.value = v; e.dispatchEvent(new Event('input')); }",
                1000 * share,
            )
            section = body.slice(share * part.posed.size_mm[2])
            x0, y0, x1, y1 = section.bounds()
            wide, deep = (float(t.removesuffix(" mm")) for t in there.tab.locator("#cut text").all_text_contents())
            path = there.tab.get_attribute("#cut .hatch", "d")
            lines = [
                [float(v) for v in one] for one in re.findall(r"M(-?[\d.]+),(-?[\d.]+)L(-?[\d.]+),(-?[\d.]+)", path)
            ]
            apart = max(1.8, max(part.posed.size_mm[:2]) / 60)
            area = sum(((a - c) ** 2 + (b - d) ** 2) ** 0.5 for a, b, c, d in lines) * apart

            assert (wide, deep) == pytest.approx((x1 - x0, y1 - y0), abs=0.06)
            assert area == pytest.approx(section.area(), rel=0.06)


def test_what_needs_support_is_shown(shared: Any, reports: Reports) -> None:
    """Chosen, the faces on support are drawn in the legend's colour, told under the pointer and in numbers."""
    there = shared("heron")
    there.tab.evaluate(TO_LOOK)
    there.tab.select_option("#which", "saddle")
    there.tab.select_option("#faces", "support")
    assert there.tab.is_visible("[data-faces=support]")
    assert not there.tab.is_visible("[data-faces=walls]")
    part = next(part for part in reports.plan("heron").parts if part.part.name == "saddle")
    assert part.estimate
    assert f"{part.estimate.supported_mm2:.0f} mm²" in there.tab.inner_text("#face-here")
    box = there.tab.locator("#turn").bounding_box()
    said = set()
    for row, step in product((0.35, 0.5, 0.65), range(1, 24)):
        there.tab.mouse.move(box["x"] + box["width"] * step / 24, box["y"] + box["height"] * row)
        said.add(there.tab.inner_text("#face-here"))

    assert {"lies on support here", "needs no support here"} <= said


def test_shares_of_the_strength_are_shown(opened: Any, reports: Reports) -> None:
    """A button shows the part so; pointer, finger, list and legend tell numbers, at size and at the size tried.

    At 120 % the weakest place has the share that its finding has there. A part without a load says so.
    """
    there = opened("heron", has_touch=True)
    there.tab.click("[data-look=jaw][data-faces=strength]")
    there.tab.wait_for_selector("#weak-numbers b")
    plan = reports.plan("heron")
    rule = next(rule for rule in plan.rules if rule.rule == "strength.beam" and rule.part == "jaw")
    for percent in (plan.scale_percent, 120.0):
        there.try_size(percent)
        share = rule.at(percent / 100.0).measured or 0.0
        assert f"weakest: {share:.0f} % of the low strength, under 44 N " in there.tab.inner_text("#face-here")
        assert there.tab.inner_text("#weak-places").startswith(f"1 {share:.0f} %")
    assert "30.7 to 43.9 %: up to here go" in there.tab.inner_text("#share-legend")
    numbers = there.tab.locator("#weak-numbers b").all_inner_texts()
    assert (numbers[0], numbers[-1]) == ("1", "S")
    assert not there.tab.is_visible("#bend")
    assert "--part jaw --elements" in there.tab.inner_text("#bend-words")
    there.tab.locator("#turn").tap()  # at its middle, once it stands still in view
    assert "here" in there.tab.inner_text("#face-here")
    box, said = there.tab.locator("#turn").bounding_box(), set()
    for row, step in product((0.45, 0.5, 0.55), range(1, 24)):
        there.tab.mouse.move(box["x"] + box["width"] * step / 24, box["y"] + box["height"] * row)
        said.add(there.tab.inner_text("#face-here"))
    told = [int(found[1]) for one in said if (found := re.fullmatch(r"here: (\d+) % of the low strength", one))]
    assert len(told) > 2
    assert max(told) <= round(share)
    there.tab.select_option("#which", "cover")
    assert "carries no load by its duty" in there.tab.inner_text("#face-here")
    assert not there.tab.is_visible("#share-legend")


def test_a_bend_is_drawn_by_a_slider(opened: Any) -> None:
    """A bend put into the page: the slider moves the picture, and says how much too large it is drawn."""
    bend = '{"middle":[0,0,0],"half":50,"powers":[2,0,0],"amounts":[0,0,0.6],"times":10,"most_mm":0.6}'
    there = opened("heron")
    text = there.file.read_text(encoding="utf-8")
    assert '"bend":null' in text
    bent = text.replace('"bend":null', f'"bend":{bend}')
    there.tab.route("**/*.html", lambda route: route.fulfill(body=bent, content_type="text/html"))
    there.tab.reload()
    there.tab.click("[data-look=jaw][data-faces=strength]")
    assert there.tab.inner_text("#bend-at") == "without load; true bend 0.6 mm"
    without = _picture(there)
    there.tab.focus("#bend")
    there.tab.keyboard.press("End")
    assert there.tab.inner_text("#bend-at") == "drawn 10 times too large; true 0.6 mm"
    assert _picture(there) != without


def test_walls_and_bores_follow_the_size(shared: Any, reports: Reports) -> None:
    """The thinnest wall and every bore are printed at the size tried: lengths grow as the scale."""
    there = shared("heron")
    there.tab.evaluate(TO_LOOK)
    there.tab.select_option("#which", "deck")
    survey = next(part.survey for part in reports.plan("heron").parts if part.part.name == "deck")
    assert survey.walls.least_clear
    there.try_size(120.0)

    assert f"{1.2 * survey.walls.least_clear.thickness_mm:.2f} mm" in there.tab.inner_text("#face-here")
    shown = there.tab.locator("#bore-rows tr").all_inner_texts()
    assert [f"{1.2 * bore.drawn_diameter_mm:.2f} mm" in row for bore, row in zip(survey.bores, shown, strict=True)] == [
        True
    ] * len(survey.bores)


def test_without_3d_the_still_pictures_stay(opened: Any) -> None:
    """Where the browser draws nothing in 3D, the part is shown as a picture, its section still works, and nothing fails."""
    there = opened("heron")
    there.tab.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    there.tab.reload()
    there.tab.evaluate(TO_LOOK)
    there.tab.select_option("#which", "deck")

    assert there.tab.is_visible("#flat-picture")
    assert there.tab.evaluate("document.getElementById('flat-picture').naturalWidth") > 0
    assert there.tab.locator("#cut .hatch").count() == 1


def test_on_paper_it_is_complete(opened: Any) -> None:
    """In print every station has its place to sign, and what only works on a screen is left out."""
    there = opened("heron")
    there.tab.emulate_media(media="print")

    assert there.tab.locator(".sign-off:visible").count() == 7
    assert not there.tab.is_visible("#sizer")
    assert not there.tab.is_visible("#look")
    assert there.tab.locator("svg.weakest:visible").count() > 5
    assert there.tab.evaluate("getComputedStyle(document.querySelector('#verdict strong')).color") == "rgb(0, 0, 0)"
