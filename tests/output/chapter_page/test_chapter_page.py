"""The chapter's page: all of the sums, in words, in one file that loads nothing."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from typing import Any

import pytest

from planner.output import chapter_json, chapter_page
from planner.output.chapter_page.day_board import day_board, entries_of
from planner.output.chapter_page.today import on_day, tasks_of
from planner.plan import Plan


@pytest.fixture(name="sums", scope="module")
def _sums(plan: Plan) -> Any:
    """Return the sums of two Herons, planned in the hour in which the first plate starts."""
    start = min(run.start for run in plan.runs if run.start)
    sums: Any = chapter_json({"a": plan, "b&b": plan}, ids={"a": {1: "R-07.1"}}, now=start)
    sums["hands"] = [
        {
            "person": "M-1",
            "job": "R-07",
            "step": "assemble",
            "start": f"{start:%Y-%m-%d}T20:00",
            "end": f"{start:%Y-%m-%d}T21:30",
        }
    ]
    sums["late"] = [{"job": "R-07", "days": 2, "why": "the <last> plate ends on Friday"}]
    return sums


def test_everything_stands_in_one_file_that_loads_nothing(sums: Any) -> None:
    """Each plate, spool, item to buy and late job is told; no script, no address but the folders beside; names are escaped."""
    html = chapter_page(sums)

    assert "<script" not in html
    assert set(re.findall(r'(?:href|src)="([^"#][^"]*)"', html)) <= {
        f"{folder}/{file}" for folder in ("a", "b%26b") for file in ("report.html", "bench/plate-cards.html")
    }
    assert "the &lt;last&gt; plate" in html
    for row in sums["schedule"]:
        assert (row["id"] or f"{row['job']} plate {row['plate']}") in html
    assert all(row["item"] in html for row in sums["buy"])
    assert "2 days late" in html


def test_each_entry_stands_once_on_the_board_in_its_column_on_its_day(sums: Any) -> None:
    """Counted by hand over the sums: every plate with a time under its printer, every step under its person."""
    today = datetime.fromisoformat(sums["planned_at"]).date()
    board = day_board(sums, today)
    shown = [
        (name, one.text)
        for day in board.days
        for name, cell in zip(board.columns, day.cells, strict=True)
        for one in cell
    ]
    timed = [row for row in sums["schedule"] if row["start"]]

    assert len(shown) + board.later_n == len(timed) + len(sums["hands"]) + sum(
        bool(c["start"]) for c in sums["coupons"]
    )
    assert ("M-1", "R-07 assemble") in shown
    assert board.days[0].today
    assert sum(len(rows) for rows in entries_of(sums).values()) == len(shown) + board.later_n


def test_today_holds_what_begins_today_and_orders_that_are_overdue(sums: Any) -> None:
    """What starts today is listed at its hour; an order whose day is over stays on the list until it is told as bought."""
    day = datetime.fromisoformat(sums["planned_at"]).date()
    overdue = {
        "item": "nut M3",
        "n": 4.0,
        "unit": "pcs",
        "order_by": f"{day - timedelta(days=3)}",
        "by": f"{day}",
        "jobs": ["R-07"],
    }
    now, _ = on_day(tasks_of({**sums, "buy": [overdue]}), day)

    assert now[0].what == "Order 4 pcs nut M3"
    assert any(task.what == "M-1: assemble, R-07" and task.hour == "20:00" for task in now)
    starts = [row for row in sums["schedule"] if row["start"] and row["start"].startswith(str(day))]
    assert sum(task.what.startswith("Start ") for task in now) == len(starts) > 0
    gone, _ = on_day(tasks_of({**sums, "buy": []}), day - timedelta(days=40))
    assert gone == []
