"""A photo on the desk, in a real browser: two clicks give a width that holds the truth, by pointer and by keys alone."""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from planner.desk import DeskFolder
from planner.job import read_job
from tests.desk.served import PATIENCE_MS, served
from tests.desk.test_work_folder import JOB
from tests.output.page.compared import grave_of
from tests.photo.rendered import SIZE_PX, cylinder_edges_px, photo, shot
from tests.shapes import cuboid, written

DAY = date(2026, 12, 1)
WIDTH_MM, ABOVE_MM = 90.0, 6.0
MEASURED = """
[[size.measure]]
name = "forearm"
kind = "width"
recipient_mm = 80.0
device_mm = 120.0
"""


@pytest.fixture(name="taken", scope="module")
def _taken() -> tuple[bytes, Any]:
    """Return a photo of the card, and where both edges of a cylinder of 90 mm beside it are seen (OpenCV's camera model)."""
    rng = np.random.default_rng(11)
    one = shot(rng)
    kept, told = io.BytesIO(), Image.Exif()
    told.get_ifd(0x8769)[0xA405] = round(36.0 * one.focal_px / SIZE_PX[0])  # what a phone says of its lens (Exif 2.3)
    Image.fromarray(photo(one, rng)).save(kept, "PNG", exif=told)
    return kept.getvalue(), cylinder_edges_px(one, WIDTH_MM, ABOVE_MM, 130.0, np.array([0.0, 1.0, 0.0]))


def _click(tab: Any, place: Any) -> None:
    """Come as close as the desk allows to, and click on, a place of the photo."""
    tab.locator("#photo-img").scroll_into_view_if_needed()
    x, y = (float(one) for one in place)
    at = tab.evaluate(
        "([x, y]) => { const v = document.getElementById('photo-view'), i = document.getElementById('photo-img');"
        "const s = i.clientWidth / i.naturalWidth; v.scrollLeft = (x + .5) * s - v.clientWidth / 2;"
        "v.scrollTop = (y + .5) * s - v.clientHeight / 2; const b = i.getBoundingClientRect();"
        "return [b.left + (x + .5) * s, b.top + (y + .5) * s]; }",
        [x, y],
    )
    tab.mouse.click(*at)


def test_two_clicks_on_a_photo_give_a_width_that_is_put_into_the_job(
    chromium: Any, tmp_path: Path, taken: tuple[bytes, Any]
) -> None:
    """On a phone's width: the height is asked, the truth lies inside, axe finds nothing, no photo is kept."""
    data, edges = taken
    written(cuboid(20, 10, 8), tmp_path / "parts" / "box.stl")
    (tmp_path / "job.toml").write_text(JOB + MEASURED, encoding="utf-8")
    context = chromium.new_context(viewport={"width": 390, "height": 844}, bypass_csp=True)
    context.set_default_timeout(PATIENCE_MS)
    with served(DeskFolder(tmp_path, lambda: DAY)) as url:
        tab = context.new_page()
        wrong: list[str] = []
        tab.on("pageerror", lambda error: wrong.append(str(error)))
        tab.goto(url)
        tab.wait_for_function("document.getElementById('verdict').className !== ''")
        tab.set_input_files("#photo-file", {"name": "arm.png", "mimeType": "image/png", "buffer": data})
        tab.wait_for_selector("#photo-work:not([hidden])")
        for _ in range(3):
            tab.click("#photo-closer")
        for edge in edges:
            _click(tab, edge)
        assert "How high" in tab.inner_text("#photo-length")
        tab.fill("#photo-above", str(ABOVE_MM))
        tab.wait_for_function("document.getElementById('photo-decides').textContent.startsWith('Over the whole range')")
        said = tab.inner_text("#photo-length").replace("\u00a0", " ").replace("mm", "").split()
        value, low, high = (float(one.strip(",.")) for one in said if one[0].isdigit())
        assert low <= WIDTH_MM <= high
        assert high - low < 0.06 * WIDTH_MM
        assert grave_of(tab) == []
        assert tab.evaluate("document.documentElement.scrollWidth") <= 390
        tab.click("#photo-put")
        tab.wait_for_function("document.getElementById('photo-length').textContent.includes('is in the job now')")
        assert wrong == []
    measure = read_job(tmp_path / "job.toml").size.measures[0]
    assert measure.recipient_mm == pytest.approx(value)
    assert measure.how == "photo"
    assert sorted(one.name for one in tmp_path.iterdir() if not one.name.startswith(".")) == ["job.toml", "parts"]
    context.close()


def test_arrow_keys_alone_move_a_mark(chromium: Any, tmp_path: Path, taken: tuple[bytes, Any]) -> None:
    """A mark that has the focus goes by one pixel of the screen a key, by ten with Shift, and says where it is."""
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    context.set_default_timeout(PATIENCE_MS)
    with served(DeskFolder(tmp_path, lambda: DAY)) as url:
        tab = context.new_page()
        tab.goto(url)
        tab.set_input_files("#photo-file", {"name": "arm.png", "mimeType": "image/png", "buffer": taken[0]})
        tab.wait_for_selector("#photo-work:not([hidden])")
        tab.focus("#mark-0")
        assert "not set yet" in tab.get_attribute("#mark-0", "aria-label")
        before = tab.evaluate("[marks[0].x, marks[0].y, per()]")
        tab.keyboard.press("ArrowRight")
        tab.keyboard.press("Shift+ArrowDown")
        after = tab.evaluate("[marks[0].x, marks[0].y]")

        assert after[0] - before[0] == pytest.approx(before[2])
        assert after[1] - before[1] == pytest.approx(10 * before[2])
        assert "mark 1, " in tab.get_attribute("#mark-0", "aria-label")
        assert tab.inner_text("#photo-length") == "Now the other end."
        tab.focus("#mark-1")
        tab.keyboard.press("ArrowUp")
        tab.fill("#photo-above", "0")
        tab.wait_for_selector("#photo-lines li:nth-child(3)")
        assert tab.evaluate("document.getElementById('photo-img').naturalWidth") == SIZE_PX[0]  # under its own policy
    context.close()
