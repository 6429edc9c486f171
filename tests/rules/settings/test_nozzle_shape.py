"""Heights and widths against the nozzle: what it lays, badly lays and cannot lay."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from planner.finding import Verdict
from planner.job import Job
from planner.sourced import stated
from tests.rules.asked import asked

GO, WORK, NO = Verdict.GO, Verdict.GO_WITH_WORK, Verdict.NO_GO


def _one(key: str, value: float) -> dict[str, Any]:
    """Return one changed setting by its name."""
    return {key: value}


@pytest.mark.parametrize("nozzle_mm", [0.25, 0.4, 0.6, 0.8])
@pytest.mark.parametrize(
    ("rule", "key", "verdicts"),
    [
        ("layer.height", "layer_height_mm", {0.04: NO, 0.06: WORK, 0.2: GO, 0.8: GO, 0.9: WORK, 1.0: WORK, 1.01: NO}),
        ("layer.first", "first_layer_height_mm", {0.04: NO, 0.3: WORK, 0.4: GO, 0.85: GO, 0.9: WORK, 1.01: NO}),
        ("line.width", "line_width_mm", {0.55: NO, 0.7: WORK, 0.85: GO, 1.7: GO, 2.0: WORK, 2.5: WORK, 2.6: NO}),
    ],
)
def test_ends_and_stops_go_with_the_nozzle(
    block: Job, nozzle_mm: float, rule: str, key: str, verdicts: dict[float, Verdict]
) -> None:
    """In shares of the nozzle, on both sides of each limit; the remedy's two numbers lie inside the range."""
    own = replace(block, printer=replace(block.printer, nozzle_mm=stated(nozzle_mm)))
    for share, verdict in verdicts.items():
        (found,) = asked(own, rule, **_one(key, share * nozzle_mm))
        assert found.verdict is verdict, (share, found.why)
        if verdict is not GO:
            for number in re.findall(r"between ([\d.]+) and ([\d.]+) mm", found.remedy)[0]:
                assert asked(own, rule, **_one(key, float(number)))[0].verdict is GO


@pytest.mark.parametrize(("rule", "key"), [("line.shape", "layer_height_mm"), ("line.first", "first_layer_height_mm")])
def test_a_bead_is_wider_than_high(block: Job, rule: str, key: str) -> None:
    """A line of 0.36 mm is pressed onto a height of 0.30 mm, 1.2 times less, and not onto 0.31 mm."""
    assert asked(block, rule, line_width_mm=0.36, **_one(key, 0.30))[0].verdict is GO
    assert asked(block, rule, line_width_mm=0.36, **_one(key, 0.31))[0].verdict is WORK


def test_a_line_too_narrow_for_any_layer_is_to_be_wider(block: Job) -> None:
    """A line of 0.08 mm wants layers of 0.067 mm, and a nozzle of 0.4 mm lays none below 0.08 mm."""
    (found,) = asked(block, "line.shape", line_width_mm=0.08, layer_height_mm=0.1)

    assert (found.feature, found.verdict) == ("line width", WORK)
    assert found.limit == pytest.approx(0.12)


def test_a_first_layer_much_thinner_than_the_others_is_a_word(block: Job) -> None:
    """0.15 over 0.28 mm is 0.54 of it; 0.24 over 0.32 mm is 0.75."""
    assert asked(block, "layer.even", first_layer_height_mm=0.15, layer_height_mm=0.28)[0].caution
    assert not asked(block, "layer.even", layer_height_mm=0.32)[0].caution
