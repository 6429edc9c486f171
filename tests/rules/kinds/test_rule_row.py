"""Limits of rules are data: shipped numbers with a source, each replaced by a job's own limits file."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.errors import ProfileError
from planner.finding import Finding, Verdict
from planner.job import Job, read_limits, read_material, rule_kinds
from planner.rules import rule_rows, settings_findings
from planner.scale import DRAWN
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def _first_speed(job: Job, limits: Path) -> Finding:
    """Return what is said of the first layer's speed under a limits file."""
    own = replace(job, limits=read_limits(str(limits), limits.parent))
    petg = read_material("petg", Path())
    found = settings_findings(own, petg, surveys={}, estimates={}, downs={}, scale=DRAWN)
    return next(finding for finding in found if finding.rule == "speed.first")


def test_a_jobs_own_file_replaces_the_limit_of_one_rule(make_job: MakeJob, tmp_path: Path) -> None:
    """20 mm/s of a first layer pass against 40, and not against 15; the finding names the file."""
    job = make_job(TEXT, a=cuboid(40, 30, 10))
    usual, strict = tmp_path / "usual.toml", tmp_path / "strict.toml"
    usual.write_text("gap_loose_mm = 0.6\n", encoding="utf-8")
    strict.write_text('["speed.first"]\nmost_mm_s = 15.0\n', encoding="utf-8")

    assert _first_speed(job, usual).verdict is Verdict.GO
    found = _first_speed(job, strict)
    assert found.verdict is Verdict.GO_WITH_WORK
    assert found.limit == 15.0
    assert "strict.toml" in found.source


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('["speed.first"]\nmost_mm = 15.0\n', "most_mm_s"),
        ('["speed.frist"]\nmost_mm_s = 15.0\n', "speed.first"),
        ('["speed.first"]\nmost_mm_s = "fast"\n', "number"),
    ],
)
def test_a_slip_in_a_limits_file_is_refused(tmp_path: Path, text: str, told: str) -> None:
    """A wrong key, a wrong rule and a text for a number are told with what was meant."""
    path = tmp_path / "own.toml"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(ProfileError, match=told):
        read_limits(str(path), tmp_path)


def test_the_table_shows_the_numbers_that_rules_compare_with() -> None:
    """Each number of a row is the one that the job's limits hold, under the key that a limits file takes."""
    limits = read_limits()
    for row in rule_rows(limits):
        for number in row.numbers:
            own = limits.own.get(row.name, {})
            assert number.value == (own[number.key] if number.key in own else getattr(limits, number.key)).value
            assert f"{number.key} = {number.value:g}" in row.limit

    assert [row.name for row in rule_rows(limits)] == list(rule_kinds())
