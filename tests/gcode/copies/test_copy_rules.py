"""Rules about single copies: numbers on both sides of each limit, by hand; equal copies share a finding."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from planner.finding import Finding, Verdict
from planner.gcode.copies.copy_compare import Window
from planner.gcode.copies.copy_rules import copy_findings
from planner.gcode.copies.differences import Difference
from planner.gcode.copies.size_rules import Copy
from planner.gcode.matching.match import Match
from planner.job import read_limits
from tests.gcode.plate import SETTINGS
from tests.shapes import cuboid

FIRST_MM, LAYER_MM = SETTINGS.first_layer_height_mm.value, SETTINGS.layer_height_mm.value
PLACE = Difference(at_mm=(3.0, 4.0), size_mm=(2.0, 1.0), area_mm2=2.0, volume_mm3=2.4, low_mm=1.0, high_mm=2.2)


def _copy(**facts: Any) -> Copy:
    """Return a copy that is as planned, but for some facts of its report."""
    fit = SimpleNamespace(x_share=1.0, y_share=1.0, pose=SimpleNamespace(z_offset_mm=0.0, mirrored=False))
    whole = {"bottom_mm": FIRST_MM, "top_mm": 20.0, "least_top_mm": 20.0, "gaps_mm": (), "over": (), "open": ()}
    fed = {"solid_fed_share": 1.0, "motion_fed_share": 1.0, "windows": ()}
    report: Any = SimpleNamespace(**{"fit": fit, **whole, **fed, **facts})
    island: Any = None
    match = Match(island=island, part="block", across_share=1.0, upward_share=1.0, mirrored=False, alike_share=1.0)
    return Copy(match=match, report=report, solid=cuboid(40, 30, 20))


def _told(*copies: Copy) -> list[Finding]:
    """Return what is wrong with some copies."""
    return [one for one in copy_findings(copies, SETTINGS, read_limits()) if one.verdict is not Verdict.GO]


def _window(planned: float, motion: float = 1.0) -> tuple[Window, ...]:
    """Return a few layers with their filament."""
    return (Window(low_mm=1.0, high_mm=2.0, planned_share=planned, motion_share=motion),)


@pytest.mark.parametrize(
    ("facts", "rules"),
    [
        ({}, []),
        ({"bottom_mm": FIRST_MM + 0.74 * LAYER_MM}, []),
        ({"bottom_mm": FIRST_MM + 0.76 * LAYER_MM}, ["program.air"]),
        ({"gaps_mm": ((1.0, 1.6),)}, ["program.gap"]),
        ({"over": (PLACE,)}, ["program.outside"]),
        ({"open": (PLACE,)}, ["program.lacks"]),
        ({"solid_fed_share": 0.91}, []),
        ({"solid_fed_share": 0.89}, ["program.fill"]),
        ({"solid_fed_share": 1.13, "motion_fed_share": 1.13}, ["program.fed"]),
        ({"windows": _window(0.86)}, []),
        ({"windows": _window(0.84)}, ["program.fill"]),
        ({"windows": _window(0.84, 0.84)}, ["program.fed"]),
        ({"solid_fed_share": None, "motion_fed_share": 0.86}, []),
        ({"solid_fed_share": None, "motion_fed_share": 0.84}, ["program.fed"]),
    ],
)
def test_a_copy_is_wrong_just_past_each_limit(facts: dict[str, Any], rules: list[str]) -> None:
    """Air from 0.75 layers on; all solid layers get 90 to 112 %, a few 85 to 120 %, lines 92 to 110 % (shipped limits)."""
    assert [one.rule for one in _told(_copy(**facts))] == rules


def test_a_difference_is_told_with_its_place_and_volume() -> None:
    """The largest comes first, all volumes are added."""
    (found,) = _told(_copy(over=(PLACE, PLACE)))

    assert found.measured == pytest.approx(4.8)
    assert "in 2 places, the most: 2.0 mm² over 2.0 x 1.0 mm, about x 3.0, y 4.0" in found.why


def test_equal_copies_share_a_finding() -> None:
    """Three copies that hang in the air are one finding with their number; the first gives its height."""
    (found,) = _told(*(_copy(bottom_mm=bottom) for bottom in (5.0, 6.0, 7.0)))

    assert found.why.startswith("3 x block begins in mid-air")
    assert found.measured == 5.0


def test_a_copy_whose_size_tells_enough_is_not_compared_any_further() -> None:
    """Without a report nothing is said of air, gaps or filament."""
    bare = _copy()
    copy = Copy(match=bare.match, report=None, solid=cuboid(40, 30, 20))

    assert {one.rule for one in copy_findings([copy], SETTINGS, read_limits())} <= {"program.size", "program.height"}
