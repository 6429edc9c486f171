"""The chapter's page: all of the sums, in words, in one file that loads nothing."""

from __future__ import annotations

import re
from typing import Any

from planner.output import chapter_page


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
    assert all(row["item"] in html.replace("\u00a0", " ").replace("&nbsp;", " ") for row in sums["buy"])
    assert "2 days late" in html


def test_the_months_to_come_are_told_or_what_is_missing(sums: Any) -> None:
    """With a ledger's history: devices by month and how long people wait; with a thin one what is missing; without one nothing."""
    months = {"month": "2027-01", "devices": {"p10": 2.0, "p50": 4.0, "p90": 6.0}}
    waits = {"p10": 9.0, "p50": 14.0, "p90": None}
    told = chapter_page({**sums, "forecast": [months], "waiting_days": waits, "forecast_missing": []})
    thin = chapter_page(
        {**sums, "forecast": [], "waiting_days": None, "forecast_missing": ["no device is handed over yet"]}
    )

    assert "2027-01" in told
    assert "waits 14 days; 1 in 10 waits longer than over a year" not in told
    assert "waits 14 days" in told
    assert "too short" in thin
    assert "no device is handed over yet" in thin
    assert "months to come" not in chapter_page(sums)
