"""Sizes of single copies: another scale, another unit, stretched, too low: each told as what it is, and only once."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.finding import Finding
from planner.gcode.copies.size_rules import Copy, height_finding, size_finding
from planner.gcode.matching.match import Match
from planner.job import read_limits
from tests.shapes import cuboid

LAYER_MM = 0.2
PLANNED = cuboid(40, 30, 20)
LIMITS = read_limits()


def _copy(x: float, y: float, tall_mm: float, *, least_top_mm: float = 20.0) -> Copy:
    """Return a copy of a block of 40 x 30 x 20 mm with its shares along x and y and its height."""
    report: Any = SimpleNamespace(
        fit=SimpleNamespace(x_share=x, y_share=y, pose=SimpleNamespace(z_offset_mm=0.0, mirrored=False)),
        top_mm=tall_mm,
        least_top_mm=least_top_mm,
    )
    return Copy(match=_match(), report=report, solid=PLANNED)


def _match(across: float = 1.0, upward: float = 1.0) -> Match:
    """Return a match by the raster."""
    island: Any = None
    return Match(island=island, part="block", across_share=across, upward_share=upward, mirrored=False, alike_share=1.0)


def _told(copy: Copy) -> list[Finding]:
    """Return what is said of a copy's size and height."""
    found = size_finding(copy, LAYER_MM, LIMITS), height_finding(copy, LAYER_MM, LIMITS)
    return [finding for finding in found if finding is not None]


@pytest.mark.parametrize(
    ("copy", "rules"),
    [
        (_copy(1.0, 1.0, 20.0), []),
        (_copy(1.1, 1.1, 22.0), ["program.scale"]),
        (_copy(25.4, 25.4, 508.0), ["program.unit"]),
        (_copy(0.1, 0.1, 2.0), ["program.unit"]),
        (_copy(1.1, 1.0, 20.0), ["program.stretch"]),
        (_copy(1.0, 1.0, 15.0), ["program.height"]),
        (_copy(1.0, 1.0, 22.0), ["program.height"]),
        (_copy(1.1, 1.1, 20.0), ["program.stretch"]),
    ],
    ids=["as planned", "110 %", "inches", "mm for cm", "along x", "cut off", "too high", "flat"],
)
def test_each_fault_has_its_own_rule(copy: Copy, rules: list[str]) -> None:
    """One finding a fault: a whole other size is no wrong height as well, a flat one is no scale."""
    assert [finding.rule for finding in _told(copy)] == rules


def test_what_is_measured_is_told_in_percent_of_the_plan() -> None:
    """110 % for a scale, the worse of two for a stretch, mm for a height."""
    scale, stretch, height = (
        _told(copy)[0] for copy in (_copy(1.1, 1.1, 22.0), _copy(0.8, 1.1, 20.0), _copy(1.0, 1.0, 15.0))
    )

    assert [f.measured for f in (scale, stretch, height)] == pytest.approx([110.0, 80.0, 15.0])
    assert height.limit == pytest.approx(20.0)


def test_a_side_may_differ_by_the_larger_of_both_limits() -> None:
    """A hair within and a hair beyond, on the longer side of 40 mm."""
    slack_mm = max(
        LIMITS.of("program.stretch", "side_mm").value, 0.4 * LIMITS.of("program.stretch", "side_percent").value
    )

    assert _told(_copy(1.0 + (slack_mm - 0.001) / 40.0, 1.0, 20.0)) == []
    assert len(_told(_copy(1.0 + (slack_mm + 0.001) / 40.0, 1.0, 20.0))) == 1


def test_a_part_too_thin_to_lay_on_top_may_end_below_its_planned_height() -> None:
    """Where two lines fit up to 17 mm only, an end there is as planned; half a millimetre lower it is not."""
    under_mm = LIMITS.of("program.height", "under_layers").value * LAYER_MM

    assert _told(_copy(1.0, 1.0, 17.0, least_top_mm=17.0)) == []
    assert _told(_copy(1.0, 1.0, 17.0 - under_mm - 0.5, least_top_mm=17.0)) != []


def test_without_a_report_the_match_tells_the_size() -> None:
    """Twice as large by the raster: 200 %, and measured again exactly where there is a report."""
    rough = Copy(match=_match(2.0, 2.0), report=None, solid=PLANNED)
    exact = _copy(1.2, 0.9, 30.0).as_measured()

    assert rough.tall_mm == pytest.approx(40.0)
    assert [f.rule for f in _told(rough)] == ["program.scale"]
    assert [exact.across_share, exact.upward_share] == pytest.approx([1.08**0.5, 1.5])


def test_a_long_side_may_differ_by_its_share() -> None:
    """0.4 % of 400 mm are 1.6 mm, far more than a short side's 0.25: 1.5 mm more is the same size, 1.7 is another."""
    share = LIMITS.of("program.stretch", "side_percent").value / 100.0
    least_mm = LIMITS.of("program.stretch", "side_mm").value
    found = [
        len(_told(replace(_copy(1.0 + part * share, 1.0, 20.0), solid=cuboid(400, 30, 20)))) for part in (0.95, 1.05)
    ]

    assert share * 400.0 > 2.0 * least_mm
    assert found == [0, 1]
