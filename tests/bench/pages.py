"""Benches of the report: how soon its size slider answers in a browser."""

from __future__ import annotations

import os
import shutil
import tempfile
from datetime import date
from pathlib import Path

from playwright.sync_api import sync_playwright

from planner.job import read_job
from planner.output import page
from planner.plan import make_plan, prepare

HERON = Path(__file__).parents[2] / "sample_parts" / "heron" / "job.toml"
MOVES = """() => { document.getElementById('all-findings').open = true;
  const main = document.querySelector('main'), e = document.getElementById('slider');
  const middle = (work) => { const took = [];
    for (let k = 0; k < 41; k++) { const start = performance.now(); work(k); document.body.getBoundingClientRect();
      took.push(performance.now() - start); }
    return took.sort((a, b) => a - b)[20]; };
  const moved = middle((k) => { e.value = 60 + 3 * k; e.dispatchEvent(new Event('input')); });
  const anew = middle(() => { main.style.display = 'none'; document.body.getBoundingClientRect(); main.style.display = ''; });
  return [moved / 1000, anew / 1000]; }"""
"""Seconds from the hand's move to a page laid out anew, and of laying it out alone: the middle of 41 each."""


def slider() -> dict[str, object]:
    """Time a move of the Heron's size slider beside laying the page out anew."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        file = Path(folder) / "report.html"
        file.write_text(page(make_plan(prepare(read_job(HERON), date(2026, 12, 1)))), encoding="utf-8")
        found = os.environ.get("FITWRIGHT_CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        tab = browser.new_page()
        tab.goto(file.as_uri())
        tab.wait_for_selector("#device[data-begun]", state="attached")
        moved_s, anew_s = tab.evaluate(MOVES)
        browser.close()
    return {
        "name": "the report's size slider",
        "ours_s": moved_s,
        "peer": "laying the page out anew",
        "peer_s": anew_s,
        "ratio": anew_s / moved_s,
        "size": f"{1000 * moved_s:.0f} ms a move, the middle of 41",
    }


PAGE_BENCHES = {"slider": slider}
