"""The desk's page in a real browser: it says what check says, keeps what is filled in, and nothing is amiss."""

from __future__ import annotations

import shutil
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
import uvicorn

from planner.desk import DeskFolder, desk_app
from planner.job import read_job
from planner.plan import prepare
from planner.rules import check
from tests.shapes import DATA, bored_plate, written

DAY = date(2026, 12, 1)
AXE = DATA / "axe" / "axe.min.js"
PATIENCE_MS = 90_000
"""The first check measures the Heron: seconds, and more on a busy machine."""


@pytest.fixture(name="address", scope="module")
def _address(heron: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """Serve a desk with the Heron on it."""
    folder = tmp_path_factory.mktemp("desk")
    shutil.copytree(heron.parent, folder, dirs_exist_ok=True)
    with served(DeskFolder(folder, lambda: DAY)) as url:
        yield url, folder


@contextmanager
def served(desk: DeskFolder) -> Iterator[str]:
    """Serve a desk as long as the block lasts; yield the address that opens it."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    port = listening.getsockname()[1]
    app = desk_app(desk, "a-token", port)
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", access_log=False))
    thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://127.0.0.1:{port}/?token=a-token"
    server.should_exit = True
    thread.join(10)


def _grave(tab: Any) -> list[tuple[str, str, list[str]]]:
    """Return what axe-core finds serious or critical on a page as it stands."""
    if not tab.evaluate("'axe' in window"):
        tab.add_script_tag(content=AXE.read_text(encoding="utf-8"))
    found = tab.evaluate("axe.run(document, {resultTypes: ['violations']})")["violations"]
    return [
        (one["id"], one["help"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]


@pytest.mark.parametrize("width", [1280, 390])
def test_the_page_says_what_check_says(width: int, address: tuple[str, Path], chromium: Any) -> None:
    """Verdict and causes at five sizes; no console error, no request elsewhere, nothing wider than the screen."""
    url, folder = address
    context = chromium.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    wrong: list[str] = []
    asked: list[str] = []
    tab.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    tab.on("pageerror", lambda error: wrong.append(str(error)))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(url)
    tab.wait_for_function("document.getElementById('verdict').className !== ''")
    bound = prepare(read_job(folder / "job.toml"), DAY).bound
    for percent in (70, 90, 106.5, 130, 170):
        tab.evaluate(
            "p => { const e = document.getElementById('percent'); e.value = p; e.dispatchEvent(new Event('input')); }",
            percent,
        )
        meant = check(bound, percent)
        tab.wait_for_function(
            "told => document.getElementById('verdict').textContent === told",
            arg=f"{meant.verdict.value} at {percent:g} %",
        )
        rows = tab.evaluate(
            "[...document.querySelectorAll('#findings tbody tr td:nth-child(3)')].map(e => e.textContent)"
        )
        assert rows == [f.why for f in meant.findings if f.verdict.value != "go"]
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
    assert _grave(tab) == []
    assert wrong == []
    assert {one.split("/")[2] for one in asked if not one.startswith("data:")} == {url.split("/")[2]}
    context.close()


def test_a_field_that_is_filled_in_is_saved(address: tuple[str, Path], chromium: Any) -> None:
    """By keyboard alone: the count of a part, kept in the file with its comments."""
    url, folder = address
    tab = _tab(chromium, url, 1280)
    field = tab.get_by_label("jaw count")
    field.focus()
    tab.keyboard.press("Control+A")
    tab.keyboard.type("4")
    tab.keyboard.press("Tab")
    for _ in range(100):
        if read_job(folder / "job.toml").part("jaw").count == 4:
            break
        time.sleep(0.1)

    assert read_job(folder / "job.toml").part("jaw").count == 4
    tab.context.close()


def test_a_cord_is_added_and_taken_away_by_keyboard(address: tuple[str, Path], chromium: Any) -> None:
    """A refusal stands at its field and is told to a reader; mended, the row is in the file, and the focus on it."""
    url, folder = address
    tab = _tab(chromium, url, 1280)
    before = read_job(folder / "job.toml").cords
    tab.wait_for_selector("#rows-cord")
    tab.focus("#rows-cord > summary")
    tab.keyboard.press("Enter")
    tab.focus("#add-cord")
    tab.keyboard.press("Enter")
    tab.keyboard.type("spare cord")
    tab.keyboard.press("Tab")
    tab.keyboard.type("deck")  # the part, by its first letters
    tab.keyboard.press("Tab")
    tab.keyboard.type("-1")
    tab.get_by_role("button", name="keep it: new cord").focus()
    tab.keyboard.press("Enter")
    field = tab.get_by_label("new cord diameter in mm")
    tab.wait_for_selector("#cord-new-diameter_mm[aria-invalid=true]")
    said = tab.locator(f"#{field.get_attribute('aria-describedby')}")
    assert said.get_attribute("role") == "alert"
    assert said.inner_text() == "-1 cannot be; it must be above 0 to 50."
    assert read_job(folder / "job.toml").cords == before
    field.focus()
    tab.keyboard.press("Control+A")
    tab.keyboard.type("1.5")
    tab.get_by_role("button", name="keep it: new cord").focus()
    tab.keyboard.press("Enter")
    row = tab.get_by_role("group", name=f"cord {len(before) + 1}: spare cord")

    row.wait_for()
    assert tab.evaluate("document.activeElement.id") == f"cord-{len(before)}-name"
    made = read_job(folder / "job.toml").cords[-1]
    assert (made.name, made.part, made.diameter_mm) == ("spare cord", "deck", 1.5)
    tab.get_by_label("take away spare cord").focus()
    tab.keyboard.press("Enter")
    row.wait_for(state="detached")
    assert tab.evaluate("document.activeElement.id") == "add-cord"
    assert read_job(folder / "job.toml").cords == before
    tab.context.close()


def test_fields_filled_in_quickly_are_all_kept(address: tuple[str, Path], chromium: Any) -> None:
    """Typing on while the one before is being saved: nothing is lost, and the focus stays where it is."""
    url, folder = address
    tab = _tab(chromium, url, 1280)
    tab.wait_for_selector("#rows-strap")
    tab.evaluate("document.getElementById('rows-strap').open = true")
    strap = read_job(folder / "job.toml").straps[0]
    tab.get_by_label(f"{strap.name} webbing in mm").focus()
    for value in ("20", "22", "180", "3"):
        tab.keyboard.press("Control+A")
        tab.keyboard.type(value)
        tab.keyboard.press("Tab")
    focused = tab.evaluate("document.activeElement.id")
    for _ in range(100):
        if read_job(folder / "job.toml").straps[0].count == 3:
            break
        time.sleep(0.1)
    kept = read_job(folder / "job.toml").straps[0]
    assert (kept.webbing_mm, kept.slot_mm, kept.around_mm, kept.count) == (20.0, 22.0, 180.0, 3)
    assert tab.evaluate("document.activeElement.id") == focused == "strap-0-off"
    tab.context.close()


def _tab(chromium: Any, url: str, width: int) -> Any:
    """Open a page in a window of its own; its context closes it."""
    context = chromium.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    tab.goto(url)
    return tab


LOOKS = ((1280, "light"), (1280, "dark"), (390, "dark"))


def test_axe_finds_nothing_serious_in_any_state(address: tuple[str, Path], chromium: Any) -> None:
    """Everything open, a new row of each kind, a refusal at a field and one at the foot; at go, and where nothing goes.

    One page, looked at in each state on a screen and on a phone, light and dark.
    """
    url, _ = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, bypass_csp=True)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    wrong: list[str] = []
    tab.on("pageerror", lambda error: wrong.append(str(error)))

    def look() -> None:
        for width, scheme in LOOKS:
            tab.set_viewport_size({"width": width, "height": 900})
            tab.emulate_media(color_scheme=scheme)
            assert _grave(tab) == [], (width, scheme)
            assert tab.evaluate("document.documentElement.scrollWidth") <= width

    tab.goto(url)
    tab.wait_for_selector("#verdict[class]")
    tab.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    for kind in ("measure", "hardware", "cord", "strap"):
        tab.click(f"#add-{kind}")
    tab.locator("#rows-strap >> text=keep it").click()
    tab.wait_for_selector("[aria-invalid=true]")
    look()
    tab.fill("#words", "no = [toml")
    tab.click("#save")
    tab.wait_for_selector("#error:not([hidden])")
    tab.evaluate(
        "() => { const e = document.getElementById('percent'); e.value = 45; e.dispatchEvent(new Event('input')); }"
    )
    tab.wait_for_selector("#verdict.no-go")
    look()
    assert wrong == []
    context.close()


def test_papers_open_from_the_report_on_the_desk(address: tuple[str, Path], chromium: Any) -> None:
    """The report runs in a box of no origin, and its links to the papers beside it still open."""
    url, folder = address
    bench = folder / "plan" / "bench"
    bench.mkdir(parents=True)
    (bench / "drill.html").write_text("<p>what to drill", encoding="utf-8")
    (folder / "plan" / "report.html").write_text('<p><a href="bench/drill.html">Drill</a>', encoding="utf-8")
    tab = chromium.new_context().new_page()  # under the page's own policy
    tab.goto(url)
    tab.goto(url.split("?")[0] + "plan/report.html")
    assert tab.evaluate("origin") == "null"
    with tab.expect_navigation():
        tab.click("text=Drill")

    assert tab.inner_text("body") == "what to drill"
    tab.context.close()


def test_a_question_is_answered_by_keyboard(tmp_path: Path, chromium: Any) -> None:
    """A plate with two bores: its questions show with a picture, an answer is kept, and the question goes."""
    folder = tmp_path / "desk"
    (folder / "parts").mkdir(parents=True)
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (50, 30, 3.4, 48)]), folder / "parts" / "plate.stl")
    desk = DeskFolder(folder, lambda: DAY)
    desk.guess_job()
    with served(desk) as url:
        tab = _tab(chromium, url, 390)
        box = tab.get_by_role("group", name="What goes through the 2 bores of 3.4 mm in plate?")
        box.wait_for(timeout=60_000)
        assert box.locator("img").evaluate("img => img.decode().then(() => img.naturalWidth)") > 100
        assert _grave(tab) == []
        box.get_by_label("nothing goes through").focus()
        tab.keyboard.press("Space")
        box.get_by_role("button").focus()
        tab.keyboard.press("Enter")
        box.wait_for(state="detached")
        assert "# answered 2026-12-01" in desk.job_words()
        assert tab.evaluate("document.documentElement.scrollWidth <= innerWidth")
        tab.context.close()


def test_a_remedy_is_written_into_the_job_and_taken_back_by_keyboard(tmp_path: Path, chromium: Any) -> None:
    """A wall that lines of 0.41 mm hold: the button writes them, the finding goes; taken back, the file is as before."""
    (tmp_path / "parts").mkdir()
    written(bored_plate(40, 30, 1.25, []), tmp_path / "parts" / "plate.stl")
    desk = DeskFolder(tmp_path, lambda: DAY)
    desk.guess_job()
    before = desk.change_job(lambda text: text.replace('duty = "cover"', 'duty = "load"').replace(', "duty"', ""))
    with served(desk) as url:
        tab = _tab(chromium, url, 390)
        button = tab.get_by_role("button", name="Write into job: print with lines of 0.41 mm").first
        button.focus()
        assert (tab.evaluate("document.documentElement.scrollWidth"), _grave(tab)) == (390, [])
        tab.keyboard.press("Enter")
        tab.wait_for_function("document.activeElement.textContent === 'Take it back'")
        assert read_job(desk.job_file).settings.line_width_mm.value == 0.41
        assert "lines of 0.41 mm" not in tab.inner_text("#findings")
        assert "Written into the job" in tab.inner_text("#chosen")
        assert _grave(tab) == []
        tab.keyboard.press("Enter")
        tab.wait_for_function("document.activeElement.id === 'verdict'")
        assert desk.job_words() == before
        tab.context.close()
