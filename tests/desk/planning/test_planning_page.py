"""The page a chapter is planned at, on a screen and on a phone: nothing is amiss for a reader, and no text is lost."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path
from typing import Any

from planner.desk import ChapterWork, DeskFolder
from planner.ledger import last_line, made, opened, told
from tests.desk.served import PATIENCE_MS, served
from tests.ledger.telling import DAY, chapter, plate, tell
from tests.output.page.compared import COLOURS, LAYOUT, grave_of

LOOKS = ((1280, "light", ()), (390, "dark", (*COLOURS, *LAYOUT)))
SUMS = {
    "verdict": "hold",
    "jobs": [
        {"verdict": "hold", "recipient": "R-07", "job": "Heron", "plates": 3, "ready": "2026-12-09T18:30:00"}
        | {"deadline": "2026-12-07"},
        {"verdict": "go", "recipient": "R-11", "job": "Heron", "plates": 0, "ready": None, "deadline": None},
    ],
    "late": [{"job": "R-07", "days": 2, "why": "R-07 is ready 2 days after its deadline, Mon 7 Dec"}],
    "bottleneck": {"what": "printer hours", "short": "12 h short by Mon 7 Dec", "buys": [], "how": ""},
    "changes": [{"job": "R-07", "was": "printed by Tue", "now": "printed by Thu", "why": "bench-2 failed"}],
    "unread": [{"path": "r12/job.toml", "why": "there is no mesh clip.stl"}],
    "buy": [],
}


def test_two_pages_plan_a_chapter_and_no_text_is_lost(tmp_path: Path, chromium: Any) -> None:
    """One file changed on two pages: the second sees both; the chapter planned on both: the second is asked; axe finds nothing."""
    (tmp_path / "chapter.toml").write_text('[chapter]\nledger = "ledger.db"\n', encoding="utf-8")
    (tmp_path / "r07").mkdir()
    (tmp_path / "r07" / "job.toml").write_text("", encoding="utf-8")
    told(made(str(tmp_path / "ledger.db")), chapter(), DAY)

    def plan(folder: Path, report: Any) -> dict[str, Any]:
        """Tell the ledger of a plan, as the command does, and return what came out."""
        report("packing", 0.5)
        engine = opened(str(folder / "ledger.db"))
        rows = [plate("R-07.1", jaw=2)]
        told(engine, [tell("plates", "R-07", plates=rows)], DAY, last_line(engine), of_all=True)
        return SUMS

    context = chromium.new_context(viewport={"width": 1280, "height": 900}, bypass_csp=True)
    context.set_default_timeout(PATIENCE_MS)
    wrong: list[str] = []

    def look(tab: Any, name: str) -> None:
        """Look at a page on a light screen and a dark phone."""
        for width, scheme, only in LOOKS:
            tab.set_viewport_size({"width": width, "height": 900})
            tab.emulate_media(color_scheme=scheme)
            if shots := os.environ.get("FITWRIGHT_SHOTS"):
                tab.screenshot(path=f"{shots}/{name}-{width}.png", full_page=True)
            assert grave_of(tab, "html", only) == [], (name, width)
            assert tab.evaluate("document.documentElement.scrollWidth") <= width

    with served(DeskFolder(tmp_path, lambda: date(2026, 12, 1)), ChapterWork(plan=plan, fill=lambda _: "")) as url:
        one, two = context.new_page(), context.new_page()
        for tab in (one, two):
            tab.on("pageerror", lambda error: wrong.append(str(error)))
            tab.goto(url)
            tab.goto(url.split("?")[0] + "planning")
            tab.wait_for_function("document.getElementById('words').value !== ''")
        one.fill("#words", '[chapter]\nledger = "ledger.db"\nmoves_a_day = 3\n')
        one.click("#save")
        one.wait_for_function("document.getElementById('saved').textContent !== ''")
        mine = '[chapter]\nledger = "ledger.db"\nmoves_a_day = 7\n'
        two.fill("#words", mine)
        two.click("#save")
        two.wait_for_selector("#both:not([hidden])")
        assert (two.input_value("#yours"), two.input_value("#words")) == (mine, mine)
        assert "moves_a_day = 3" in two.input_value("#theirs")
        look(two, "both")
        two.click("#keep-yours")
        two.wait_for_selector("#both", state="hidden")
        assert (tmp_path / "chapter.toml").read_text(encoding="utf-8") == mine

        one.click("#plan")
        one.wait_for_selector("#came:not([hidden])")
        two.click("#plan")
        two.wait_for_selector("#since:not([hidden])")
        two.click("#still")
        two.wait_for_selector("#came:not([hidden])")
        assert two.locator("#jobs tr").count() == len(SUMS["jobs"])
        look(two, "came")
    assert wrong == []
    context.close()
