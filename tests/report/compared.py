"""What a page answers when its slider is moved, against what the rooms say."""

from __future__ import annotations

from typing import Any

import pytest

from planner.fit import check
from planner.prepare import Prepared
from planner.supplies import cut_list, hardware_list


def says_what_check_says(shown: Any, ready: Prepared, percent: float) -> None:
    """Compare one answer of a page's script: verdict, every finding in its order, questions, bag and cut list."""
    meant = check(ready.bound, percent)
    assert shown["verdict"] == meant.verdict.value
    assert shown["questions"] == list(meant.questions)
    assert len(shown["findings"]) == len(meant.findings)
    for one, other in zip(shown["findings"], meant.findings, strict=True):
        assert (one["rule"], one.get("part", ""), one["verdict"]) == (other.rule, other.part, other.verdict.value)
        for key in ("feature", "why", "remedy", "caution", "source", "question"):
            assert one.get(key, "") == getattr(other, key), (percent, key, one.get(key, ""))
        for key in ("measured", "limit"):
            value = getattr(other, key)
            assert one.get(key) == (value if value is None else pytest.approx(value, rel=1e-12, abs=1e-12))

    hardware = hardware_list(ready.job, percent / 100.0, meant.findings)
    assert [(h["name"], h.get("length_mm"), h.get("why", ""), h["work"]) for h in shown["hardware"]] == [
        (h.name, h.length_mm, h.why, h.work) for h in hardware
    ]
    cuts = cut_list(ready.job, percent / 100.0, meant.findings)
    assert [(c["name"], c["why"]) for c in shown["cuts"]] == [(c.name, c.why) for c in cuts]
