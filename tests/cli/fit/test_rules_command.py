"""``fitwright rules``: the table of rules as people and programs read it."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable

import pytest

from planner.cli import main
from planner.job import rule_kinds

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture(name="run")
def _run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Return what runs the program with some words: its exit code, and what it said on both ways."""

    def run(*words: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["fitwright", *words])
        with pytest.raises(SystemExit) as left:
            main()
        told = capsys.readouterr()
        return int(str(left.value.code)), told.out, told.err

    return run


def test_all_rules_stand_in_80_columns(run: Run) -> None:
    """Every rule has a block of lines, none of them wider than 80 characters."""
    code, told, _ = run("rules")
    lines = told.splitlines()

    assert code == 0
    assert {line.split(" ")[0] for line in lines if "(station: " in line} == set(rule_kinds())
    assert max(len(line.rstrip()) for line in lines) <= 80


def test_one_rule_says_all_of_it(run: Run) -> None:
    """16 CFR 1501.4 is named for small parts, with who may lift the hold."""
    _, told, _ = run("rules", "part.small")

    assert all(word in told for word in ("compares", "limit", "source", "remedy", "changed by"))
    assert "16 CFR 1501.4" in told
    assert "[[override]]" in told


def test_the_start_of_a_name_picks_all_rules_that_begin_so(run: Run) -> None:
    """JSON of ``gap`` holds the five rules of running gaps, with numbers and their sources."""
    found = json.loads(run("rules", "gap", "--json", "-")[1])

    assert found["schema"] == "fitwright/rules/1"
    assert [row["name"] for row in found["rules"]] == [
        "gap.tight",
        "gap.inside",
        "gap.slit",
        "gap.loose",
        "gap.missing",
    ]
    assert found["rules"][3]["numbers"][0]["value"] == 0.6


def test_a_slip_of_the_keys_is_told_with_the_nearest_rule(run: Run) -> None:
    """Exit 2 and one sentence; where no name is near, it does not list them all."""
    slip, far = run("rules", "boer.tight"), run("rules", "zzzz")

    assert (slip[0], far[0]) == (2, 2)
    assert "did you mean 'bore.tight'" in slip[2]
    assert len(far[2]) < 120
