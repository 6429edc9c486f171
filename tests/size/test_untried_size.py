"""Sizes that nobody is known to have built are a caution, never more."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_job
from planner.size.untried_size import untried


@pytest.mark.parametrize(
    ("percent", "beside"), [(89.9, True), (90.0, False), (106.5, False), (150.0, False), (150.1, True)]
)
def test_only_sizes_beyond_those_built_are_told(heron: Path, percent: float, beside: bool) -> None:
    """Somebody has built the sample from 90 to 150 %: just outside either end a joint is printed first; always go."""
    (rule,) = untried(read_job(heron))
    told = rule.at(percent / 100.0)

    assert told.verdict is Verdict.GO
    assert told.caution == (
        f"Nobody is known to have built it at {percent:g} %: print one joint first." if beside else ""
    )


def test_a_job_that_names_no_size_built_has_no_such_rule(heron: Path) -> None:
    """Nothing stated, nothing told."""
    assert untried(replace(read_job(heron), tried_percent=None)) == []
