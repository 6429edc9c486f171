"""The limits that rules compare with: one number a rule and key, shipped or a job's own."""

from __future__ import annotations

import tomllib

import pytest

from planner.job import read_limits
from tests.shapes import ROOT


def test_every_number_of_every_rule_is_the_one_in_its_row() -> None:
    """Against the rules' own files, read with the standard library: the same values under the same names, none left out."""
    limits, seen = read_limits(), 0
    for path in sorted((ROOT / "profiles" / "rules").glob("*.toml")):
        for rule, row in tomllib.loads(path.read_text(encoding="utf-8")).items():
            for key, number in row.get("limits", {}).items() if isinstance(row, dict) else ():
                assert limits.of(rule, key).value == number["value"], (rule, key)
                seen += 1

    assert seen == sum(len(numbers) for numbers in limits.own.values()) > 50


def test_a_number_that_no_rule_has_is_no_zero() -> None:
    """A wrong key ends with an error, and never with a limit that nobody stated."""
    with pytest.raises(KeyError):
        read_limits().of("support.cost", "most_grams")
