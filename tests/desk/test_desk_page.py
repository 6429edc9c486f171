"""The desk's page in a real browser: it says what check says, keeps what is filled in, and nothing is amiss."""

from __future__ import annotations

import time
from datetime import date
from pathlib import Path
from typing import Any

from planner.desk import DeskFolder
from planner.job import read_job
from planner.plan import Prepared
from planner.rules import check
from tests.desk.served import PATIENCE_MS, served, without_proofs
from tests.desk.test_work_folder import JOB
from tests.output.page.compared import grave_of
from tests.shapes import bored_plate, bracket, cuboid, written

DAY = date(2026, 12, 1)


def test_the_page_says_what_check_says(address: tuple[str, Path], chromium: Any, heron_ready: Prepared) -> None:
    """Verdict and causes at five sizes; no console error, no request elsewhere; nothing wider than a screen or a phone."""
    url, _ = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, bypass_csp=True)
    without_proofs(context)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    wrong: list[str] = []
    asked: list[str] = []
    tab.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    tab.on("pageerror", lambda error: wrong.append(str(error)))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(url)
    tab.wait_for_function("document.getElementById('verdict').className !== ''")
    for percent in (70, 90, 106.5, 130, 170):
        tab.evaluate(
            "p => { const e = document.getElementById('percent'); e.value = p; e.dispatchEvent(new Event('input')); }",
            percent,
        )
        meant = check(heron_ready.bound, percent)
        tab.wait_for_function(
            "told => document.getElementById('verdict').textContent === told",
            arg=f"{meant.verdict.value} at {percent:g} %",
        )
        rows = tab.evaluate(
            "[...document.querySelectorAll('#findings tbody tr td:nth-child(3)')].map(e => e.textContent)"
        )
        whys = [f.why for f in meant.findings if f.verdict.value != "go"]
        shown = [row.replace("\u00a0", " ") for row in rows]
        assert [why for why in whys if not any(why in row for row in shown)] == []
        assert all(any(row.startswith(why) for why in whys) for row in shown)  # one of each kind, the others below it
    for width in (1280, 390):
        tab.set_viewport_size({"width": width, "height": 900})
        assert tab.evaluate("document.documentElement.scrollWidth") <= width
    assert wrong == []
    assert {one.split("/")[2] for one in asked if not one.startswith("data:")} == {url.split("/")[2]}
    context.close()


def test_a_field_that_is_filled_in_is_saved(address: tuple[str, Path], chromium: Any) -> None:
    """By keyboard alone: the count of a part, kept in the file with its comments."""
    url, folder = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    without_proofs(context)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    tab.goto(url)
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
    context.close()


def test_a_cord_is_added_and_taken_away_by_keyboard(address: tuple[str, Path], chromium: Any) -> None:
    """A refusal stands at its field and is told to a reader; mended, the row is in the file, and the focus on it."""
    url, folder = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    without_proofs(context)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    tab.goto(url)
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
    assert said.inner_text() == "-1 cannot be; it must be from 0.05 to 50."
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
    context.close()


def test_fields_filled_in_quickly_are_all_kept(address: tuple[str, Path], chromium: Any) -> None:
    """Typing on while the one before is being saved: nothing is lost, and the focus stays where it is."""
    url, folder = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    without_proofs(context)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    tab.goto(url)
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
    context.close()


def test_papers_open_from_the_report_on_the_desk(address: tuple[str, Path], chromium: Any) -> None:
    """The report runs in a box of no origin, and its links to the papers beside it still open."""
    url, folder = address
    bench = folder / "plan" / "bench"
    bench.mkdir(parents=True)
    (bench / "drill.html").write_text("<p>what to drill", encoding="utf-8")
    (folder / "plan" / "report.html").write_text('<p><a href="bench/drill.html">Drill</a>', encoding="utf-8")
    context = chromium.new_context()
    without_proofs(context)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    tab.goto(url)
    tab.goto(url.split("?")[0] + "plan/report.html")
    assert tab.evaluate("origin") == "null"
    with tab.expect_navigation():
        tab.click("text=Drill")

    assert tab.inner_text("body") == "what to drill"
    context.close()


def test_a_question_is_answered_by_keyboard(tmp_path: Path, chromium: Any) -> None:
    """A plate with two bores: its questions show with a picture, an answer is kept, and the question goes."""
    folder = tmp_path / "desk"
    (folder / "parts").mkdir(parents=True)
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (50, 30, 3.4, 48)]), folder / "parts" / "plate.stl")
    desk = DeskFolder(folder, lambda: DAY)
    desk.guess_job()
    with served(desk) as url:
        context = chromium.new_context(viewport={"width": 390, "height": 900}, bypass_csp=True)
        tab = context.new_page()
        tab.goto(url)
        box = tab.get_by_role("group", name="What goes through the 2 bores of 3.4 mm in plate?")
        box.wait_for(timeout=60_000)
        assert box.locator("img").evaluate("img => img.decode().then(() => img.naturalWidth)") > 100
        assert grave_of(tab) == []
        box.get_by_label("nothing goes through").focus()
        tab.keyboard.press("Space")
        box.get_by_role("button").focus()
        tab.keyboard.press("Enter")
        box.wait_for(state="detached")
        assert "# answered 2026-12-01" in desk.job_words()
        assert tab.evaluate("document.documentElement.scrollWidth <= innerWidth")
        context.close()


def test_a_remedy_is_written_into_the_job_and_taken_back_by_keyboard(tmp_path: Path, chromium: Any) -> None:
    """A wall that lines of 0.41 mm hold: the button writes them, the finding goes; taken back, the file is as before."""
    parts = tmp_path / "parts"
    parts.mkdir()
    written(bracket(6.0, 1.25), parts / "plate.stl")
    desk = DeskFolder(tmp_path, lambda: DAY)
    desk.guess_job()
    before = desk.change_job(lambda text: text.replace('duty = "cover"', 'duty = "load"').replace(', "duty"', ""))
    with served(desk) as url:
        context = chromium.new_context(viewport={"width": 390, "height": 800}, bypass_csp=True)
        context.set_default_timeout(PATIENCE_MS)
        tab = context.new_page()
        tab.goto(url)
        button = tab.get_by_role("button", name="Write into job: print with lines of 0.41 mm").first
        button.wait_for()
        assert tab.evaluate("document.documentElement.scrollWidth") <= 390
        assert grave_of(tab) == []
        button.focus()
        tab.keyboard.press("Enter")
        tab.wait_for_function("document.activeElement.textContent === 'Take it back'")
        assert read_job(desk.job_file).settings.line_width_mm.value == 0.41
        assert "lines of 0.41 mm" not in tab.inner_text("#findings")
        assert "Written into the job" in tab.inner_text("#chosen")
        assert grave_of(tab) == []
        tab.keyboard.press("Enter")
        tab.wait_for_function("document.activeElement.id === 'verdict'")
        assert desk.job_words() == before
        context.close()


def test_a_folder_is_taken_in_with_each_part_s_own_answer(tmp_path: Path, chromium: Any) -> None:
    """A part longer than the bed, a small one, a text and a mesh that is none: two answers, and two words about the rest."""
    given, home = tmp_path / "given", tmp_path / "desk"
    for folder in (given / "more", home):
        folder.mkdir(parents=True)
    written(cuboid(20, 10, 8), given / "more" / "box.stl")
    written(cuboid(500, 10, 8), given / "rail.stl")
    (given / "bad.stl").write_bytes(b"this is no mesh")
    (given / "read me.txt").write_text("notes", encoding="utf-8")
    with served(DeskFolder(home, lambda: DAY)) as url:
        context = chromium.new_context(viewport={"width": 390, "height": 800}, bypass_csp=True)
        context.set_default_timeout(PATIENCE_MS)
        tab = context.new_page()
        tab.goto(url)
        tab.set_input_files("#folder", given)
        tab.wait_for_function("document.getElementById('adding').textContent.includes('looked at')")
        rows = tab.locator("#meshes li").all_inner_texts()

        assert [row.split("\u00a0")[0].split(",")[0].split()[-1] for row in rows] == ["go", "hold"]
        assert "20.0 × 10.0 × 8.0 mm" in rows[0].replace("\u00a0", " ")
        said = tab.inner_text("#adding").replace("\u00a0", " ")
        assert said.startswith("2 of 3 looked at, each alone at 100 %; other files left out: 1. Not taken: ")
        assert grave_of(tab) == []
        assert tab.evaluate("document.documentElement.scrollWidth <= 390")
        context.close()


def test_of_two_pages_the_second_sees_both_texts(chromium: Any, tmp_path: Path) -> None:
    """Both change the box: the second page shows what stands and its own text, writes the chosen one, and goes on."""
    written(cuboid(20, 10, 8), tmp_path / "parts" / "box.stl")
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, bypass_csp=True)
    context.set_default_timeout(PATIENCE_MS)
    with served(DeskFolder(tmp_path, lambda: DAY)) as url:
        first, second = context.new_page(), context.new_page()
        for tab in (first, second):
            tab.goto(url)
            tab.wait_for_function("document.getElementById('verdict').className !== ''")
        first.get_by_label("box count").fill("2")
        with first.expect_response("**/form"):
            first.keyboard.press("Tab")
        second.get_by_label("box count").fill("3")
        second.keyboard.press("Tab")
        second.wait_for_selector("#both:not([hidden])")
        assert "count = 2" in second.input_value("#theirs")
        assert "count = 3" in second.input_value("#yours")
        assert grave_of(second) == []
        assert read_job(tmp_path / "job.toml").part("box").count == 2
        with second.expect_response("**/job"):
            second.click("#keep-yours")
        second.wait_for_selector("#both", state="hidden")
        assert read_job(tmp_path / "job.toml").part("box").count == 3
        second.get_by_label("box count").fill("4")
        with second.expect_response("**/form") as told:
            second.keyboard.press("Tab")
        assert told.value.status == 200
    context.close()
