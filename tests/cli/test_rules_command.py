"""``fitwright rules``: the table of rules as people and programs read it."""

from __future__ import annotations

import json

from planner.job import rule_kinds
from tests.cli.test_commands import run


def test_all_rules_stand_in_80_columns() -> None:
    """Every rule has a block of lines, none of them wider than 80 characters."""
    done = run("rules")
    lines = done.stdout.splitlines()

    assert done.returncode == 0
    assert {line.split(" ")[0] for line in lines if "(station: " in line} == set(rule_kinds())
    assert max(len(line.rstrip()) for line in lines) <= 80


def test_one_rule_says_all_of_it() -> None:
    """16 CFR 1501.4 is named for small parts, with who may lift the hold."""
    told = run("rules", "part.small").stdout

    assert all(word in told for word in ("compares", "limit", "source", "remedy", "changed by"))
    assert "16 CFR 1501.4" in told
    assert "[[override]]" in told


def test_the_start_of_a_name_picks_all_rules_that_begin_so() -> None:
    """JSON of ``gap`` holds the three rules of running gaps, with numbers and their sources."""
    found = json.loads(run("rules", "gap", "--json", "-").stdout)

    assert found["schema"] == "fitwright/rules/1"
    assert [row["name"] for row in found["rules"]] == ["gap.tight", "gap.loose", "gap.missing"]
    assert found["rules"][1]["numbers"][0]["value"] == 0.6


def test_a_slip_of_the_keys_is_told_with_the_nearest_rule() -> None:
    """Exit 2 and one sentence; where no name is near, it does not list them all."""
    slip, far = run("rules", "boer.tight"), run("rules", "zzzz")

    assert (slip.returncode, far.returncode) == (2, 2)
    assert "did you mean 'bore.tight'" in slip.stderr
    assert len(far.stderr) < 120
