"""Rows of rules: every name is known once, unknown words are refused with the nearest, limits can be replaced."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import ProfileError
from planner.job import kind_of, read_limits, rule_kinds
from planner.job.profiles import rule_kind
from planner.job.profiles.rule_kind import CHANGED_BY
from planner.job.profiles.shipped import shipped


def test_every_row_is_whole() -> None:
    """Each rule has what it compares, a remedy and somebody who may change it; its kind is found by its name."""
    for name, kind in rule_kinds().items():
        assert kind_of(name) is kind
        assert kind.compares
        assert kind.remedy
        assert set(kind.changed_by) <= set(CHANGED_BY)


def test_an_unknown_rule_is_refused_with_the_nearest() -> None:
    """A letter left out is answered with the rule that was meant."""
    with pytest.raises(ProfileError, match=r"bore\.tight"):
        kind_of("bore.tigt")


def test_a_word_that_no_program_understands_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A row that asks for something unknown stops the reading instead of being left aside."""
    fit = (shipped("profiles") / "rules" / "fit.toml").read_text(encoding="utf-8")
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "fit.toml").write_text(fit.replace('asks = ["', 'asks = ["odd', 1), encoding="utf-8")
    monkeypatch.setattr(rule_kind, "shipped", lambda _: tmp_path)

    with pytest.raises(ProfileError, match="is not known"):
        rule_kind.rule_kinds.__wrapped__()


def test_limits_of_one_rule_are_found_by_rule_and_key() -> None:
    """Numbers that one rule alone uses come from its row."""
    limits = read_limits("standard")
    rule, row = next((name, kind.limits) for name, kind in rule_kinds().items() if kind.limits)

    assert all(limits.of(rule, key) == number for key, number in row.items())
