"""Programs get every number of a pattern, and null where there is none."""

from __future__ import annotations

import json
from pathlib import Path

from planner.output.pattern.pattern_files import PatternFiles
from planner.output.pattern.pattern_json import pattern_json
from tests.output.pattern.worked import patterns


def test_what_is_told_is_json_with_the_worst_verdict() -> None:
    """The plate without a side makes it a hold; its numbers are null."""
    files = [PatternFiles(svg=Path("a.svg"))] + [PatternFiles()] * 3
    told = json.loads(json.dumps(pattern_json(patterns(), Path("p.pdf"), files), allow_nan=False))

    assert told["verdict"] == "hold"
    assert [one["method"] for one in told["patterns"]] == ["cylinder", "plane", "least stretch", None]
    assert told["patterns"][0]["svg"] == "a.svg"
    assert told["patterns"][3]["area_mm2"] is None
    assert len(told["patterns"][1]["outline_mm"]) == 2
