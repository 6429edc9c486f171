"""No sentence of any rule prints measured and limit as the same digits while its verdict says that they differ."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from planner.finding import Finding, Verdict
from planner.plan import Prepared
from planner.rules import steps_of
from planner.rules.settings.setting_rule import compared

NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?")
ALONE = re.compile(r"at a scale of ([\d.]+) % or (more|less), (?:this \w+ by itself|as it lies)")
BEYOND = (1.0, 1.07, 1.4, 2.5)
"""So far past a size that is named "or more", or below one named "or less", the rule is asked as well."""
NEARER = (1e-4, 1e-5)
BESIDE = (1e-3, 1e-5, 1e-7)
"""How far beside its turns each rule is asked, as shares of the scale; bores alike to 1e-6 turn as one."""


def alike(finding: Finding) -> str:
    """Return how measured is printed where it reads as the limit though the verdict tells them apart; or nothing."""
    measured, limit = finding.measured, finding.limit
    if finding.verdict is Verdict.GO or measured is None or limit is None or abs(measured - limit) < 1e-8:
        return ""
    words = NUMBER.findall(finding.why)
    meant = [word for word in words if _stands_for(word, measured)]
    return "" if any(not _stands_for(word, limit) for word in meant) else "".join(meant[:1])


def _stands_for(word: str, number: float) -> bool:
    """Return whether a number prints as a word, in as many digits as that has."""
    return abs(float(word) - number) <= 0.5 * 10.0 ** -len(word.partition(".")[2]) * (1.0 + 1e-9)


def test_every_rule_of_the_sample_device_tells_its_numbers_apart(heron_ready: Prepared) -> None:
    """Every rule is asked just beside each of its turns, where both numbers come nearest, and over all sizes."""
    found = []
    for rule in heron_ready.bound.rules:
        sizes = [turn * (1.0 + sign * share) for turn in rule.turns() for share in BESIDE for sign in (-1, 1)]
        for s in (*sizes, *(k / 20.0 for k in range(8, 40))):
            if 0.2 < s < 5.0 and alike(rule.at(s)):
                found.append((rule.rule, s, rule.at(s).why))

    assert found == []


def test_verdicts_turn_at_the_turns_and_nowhere_beside_them(heron_ready: Prepared) -> None:
    """Just beside each of its turns every rule says what is said between them: window and check agree to the last size."""
    found = []
    for rule in heron_ready.bound.rules:
        steps = steps_of(rule)
        sizes = [turn * (1.0 + sign * share) for turn in steps.turns for share in NEARER for sign in (-1, 0, 1)]
        found += [(rule.rule, s) for s in sizes if 0.2 < s < 5.0 and rule.at(s).verdict is not steps.at(s)]

    assert found == []


def test_a_size_that_a_rule_names_works_for_that_rule(heron_ready: Prepared) -> None:
    """A no-go names the size from which, or up to which, its rule alone passes: it does there, and beyond.

    No rule says to print at a size: what works for one bore need not work for the device.
    """
    found, named_n = [], 0
    for rule in heron_ready.bound.rules:
        for s in (k / 20.0 for k in range(8, 60)):
            finding = rule.at(s)
            assert "print at" not in finding.remedy
            for percent, way in ALONE.findall("" if finding.verdict.passes else finding.remedy):
                named_n += 1
                at = float(percent) / 100.0
                for size in (at * times if way == "more" else at / times for times in BEYOND):
                    if rule.at(size).verdict is Verdict.NO_GO:
                        found.append((rule.rule, s, size, finding.remedy))

    assert found == []
    assert named_n > 50


def test_the_sentence_that_was_printed_once_is_caught() -> None:
    """Once 3.4049 was told as 3.40 mm where 3.40 mm or less is allowed: that is what this looks for."""
    once = Finding(
        rule="bore.loose",
        part="a",
        verdict=Verdict.GO_WITH_WORK,
        measured=3.4049,
        limit=3.4,
        why="the bore prints at 3.40 mm; a sliding fit allows 3.40 mm or less",
    )
    assert alike(once) == "3.40"


@given(limit=st.integers(1, 400), apart=st.floats(-0.01, 0.01))
def test_settings_print_no_value_as_its_own_limit(limit: int, apart: float) -> None:
    """A speed of 40.00004 mm/s over a limit of 40 is not printed as 40."""
    found = compared(
        "speed.first",
        "first layer",
        measured=limit + apart,
        high=float(limit),
        unit="mm/s",
        what="the speed",
        remedy="lower it",
        source="here",
        worse=Verdict.GO_WITH_WORK,
    )
    told = NUMBER.findall(found.why)

    assert found.verdict is Verdict.GO or float(told[0]) > float(told[1])
