"""The chapter's page: one offline HTML file made from the chapter's sums, the same that ``chapter.json`` holds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any

from planner.finding import Verdict
from planner.output.chapter_page.day_board import DAYS_MOST, day_board
from planner.output.chapter_page.today import on_day, tasks_of
from planner.output.page.escaped import escaping
from planner.output.paper_files.lettering.web_faces import with_letters
from planner.output.paper_files.line_breaks import with_fixed_spaces_in
from planner.output.terminal.chapter.limits_text import change_lines, limit_lines
from planner.output.words import wording
from planner.phrases import day_words, moment, wait_words

CHAPTER_PAGE = "chapter.html"
TEMPLATES = Path(__file__).parent / "templates"


def chapter_page(sums: Mapping[str, Any]) -> str:
    """Return the page as HTML text; ``sums`` are those of ``chapter_json``, and links lead to the folders beside it."""
    now = datetime.fromisoformat(sums["planned_at"])
    today, soon = on_day(tasks_of(sums), now.date())
    environment = escaping(TEMPLATES)
    environment.filters.update({"day": _day, "moment": _moment, "grams": wording.grams})
    environment.filters.update({"whole": _whole, "wait": wait_words})
    verdict = Verdict(sums["verdict"])
    html = environment.get_template("chapter.html.j2").render(
        sums=sums,
        now=now,
        style=(TEMPLATES / "chapter.css").read_text(encoding="utf-8"),
        verdict=verdict,
        said=wording.VERDICTS[verdict][0],
        words={each.value: words[0] for each, words in wording.VERDICTS.items()},
        signs={each.value: sign for each, sign in wording.SIGNS.items()},
        today=today,
        soon=soon,
        jobs=sorted(sums["jobs"], key=_urgent),
        changes=change_lines(dict(sums)),
        limits=limit_lines(dict(sums)),
        board=day_board(sums, now.date()),
        days_most=DAYS_MOST,
        months=sums.get("forecast"),
        waits=sums.get("waiting_days"),
        too_thin=sums.get("forecast_missing"),
    )
    return with_letters(with_fixed_spaces_in(html))


def _urgent(job: Mapping[str, Any]) -> tuple[bool, float, str]:
    """Return the order of jobs: those that wait for an answer first, then by slack, the least first."""
    slack = job["slack_days"]
    return Verdict(job["verdict"]).passes, 1e6 if slack is None else slack, str(job["folder"])


def _day(text: str | None) -> str:
    """Return a day as people write it; a dash for none."""
    return day_words(date.fromisoformat(text[:10])) if text else "–"


def _whole(value: float | None) -> str:
    """Return a count of devices; a dash for none."""
    return "–" if value is None else f"{value:.0f}"


def _moment(text: str | None) -> str:
    """Return a moment as people write it; a dash for none."""
    return moment(datetime.fromisoformat(text)) if text else "–"
