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
    assert all(row["item"] in html for row in sums["buy"])
    assert "2 days late" in html
