"""A release as JSON: what is missing, item by item."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

from planner.output import blank, release, release_json
from planner.plan import Plan


def test_an_empty_record_holds(plan: Plan) -> None:
    """A hold, with each missing item and what to do about it."""
    judged = release(plan, blank(plan, "a4"), date(2026, 12, 20))
    found: Any = release_json(plan, judged, Path("record.toml"), Path("hand-over.html"))

    assert (found["verdict"], found["released"], found["day"]) == ("hold", False, "2026-12-20")
    assert [one["item"] for one in found["missing"]] == [one.item for one in judged.missing]
    assert all(one["what"] for one in found["missing"])
