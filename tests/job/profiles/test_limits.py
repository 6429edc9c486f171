"""The limits that rules compare with: one number a rule and key, shipped or a job's own."""

from __future__ import annotations

import tomllib
from dataclasses import fields
from pathlib import Path

import pytest

from planner.errors import ProfileError
from planner.job import read_limits
from planner.sourced import Sourced
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


def _numbers() -> list[tuple[str, str, Sourced]]:
    """Return table (empty for the common ones), key and shipped number of every limit."""
    limits = read_limits()
    common = [
        ("", field.name, getattr(limits, field.name)) for field in fields(limits) if field.name not in ("name", "own")
    ]
    return common + [(rule, key, number) for rule, row in limits.own.items() for key, number in row.items()]


def _own(folder: Path, rule: str, key: str, value: str) -> Sourced:
    """Return a limit out of a file that states it alone."""
    head = f'["{rule}"]\n' if rule else ""
    (folder / "own.toml").write_text(f"{head}{key} = {value}\n", encoding="utf-8")
    limits = read_limits("own.toml", folder)
    return limits.of(rule, key) if rule else getattr(limits, key)


def test_no_limit_of_a_persons_own_is_so_far_off_that_its_rule_sleeps(tmp_path: Path) -> None:
    """The usual value and 0.9 of it are taken; eleven times either end of the usual range, or a million, are refused by name."""
    for rule, key, usual in _numbers():
        for factor in (1.0, 0.9):
            assert _own(tmp_path, rule, key, f"{usual.value * factor!r}").value == usual.value * factor
        for value in (usual.low / 11, usual.high * 11, 1e6):
            if value:
                with pytest.raises(ProfileError, match=key):
                    _own(tmp_path, rule, key, repr(value))


@pytest.mark.parametrize(
    "value", ["0", "1.01", "{ value = 0.5, low = 0.0, high = 0.6 }", "{ value = 0.5, high = 2.0 }"]
)
def test_a_share_of_strength_is_above_0_and_at_most_1(tmp_path: Path, value: str) -> None:
    """By definition: what lasts is no more than what a short test breaks at; either end of a range is held to it, too."""
    for key in ("creep_share", "strength_share"):
        with pytest.raises(ProfileError, match=r"is no limit beside the usual 0.5; from 0.0[35]+ to 1 can be"):
            _own(tmp_path, "", key, value)


def test_what_lets_faults_pass_or_is_a_length_may_be_none(tmp_path: Path) -> None:
    """No blemish, no lip and no room in a seat can be asked for: 0."""
    assert [_own(tmp_path, "", key, "0").value for key in ("blemish_lines", "lip_share", "seat_clearance_mm")] == [
        0,
        0,
        0,
    ]
