"""Settings against parts at size: both sides of each limit, at the part's own scale."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.finding import Finding, Verdict
from planner.job import Job, Material
from planner.rules.settings.parts_at_size import layers_hold_it_all, layers_of_part, small_bores, warp_span
from planner.rules.settings.setting_rule import Case
from planner.scale import DRAWN, Scale
from planner.sourced import stated


def _case(job: Job, material: Material, scale: Scale = DRAWN, **facts: Any) -> Case:
    """Return a case whose one part has some facts."""
    survey: Any = SimpleNamespace(volume_mm3=1000.0, bores=(), size_mm=(100.0, 20.0, 10.0))
    estimate: Any = SimpleNamespace(layers_n=50, approximate="", sections_mm3=1000.0, sections_slack_mm3=0.0)
    for name, value in facts.items():
        setattr(survey if hasattr(survey, name) else estimate, name, value)
    return Case(job=job, material=material, surveys={"a": survey}, estimates={"a": estimate}, downs={}, scale=scale)


def _worst(found: list[Finding]) -> Verdict:
    """Return the verdict of the one finding."""
    (finding,) = found
    return finding.verdict


def test_a_part_needs_some_layers(block: Job, petg: Material) -> None:
    """As many as the limit go, one fewer goes with work."""
    least = int(block.limits.of("part.layers", "low_layers").value)

    assert _worst(layers_of_part(_case(block, petg, layers_n=least))) is Verdict.GO
    assert _worst(layers_of_part(_case(block, petg, layers_n=least - 1))) is Verdict.GO_WITH_WORK


def test_layers_must_hold_the_meshs_volume_at_its_scale(block: Job, petg: Material) -> None:
    """At 200 % 1000 mm3 are 8000: that goes, the limit and a hair off either way is held; half a layer's slack adds."""
    most = block.limits.of("layers.volume", "most_percent").value / 100.0
    double = Scale(200.0)

    assert _worst(layers_hold_it_all(_case(block, petg, double, sections_mm3=8000.0))) is Verdict.GO
    for way in (1.0, -1.0):
        off = 8000.0 * (1.0 + way * (most + 0.001))
        assert _worst(layers_hold_it_all(_case(block, petg, double, sections_mm3=off))) is Verdict.HOLD
        slack = _case(block, petg, double, sections_mm3=off, sections_slack_mm3=80.0)
        assert _worst(layers_hold_it_all(slack)) is Verdict.GO
    assert layers_hold_it_all(_case(block, petg, approximate="the mesh is open")) == []


def test_the_smallest_bore_is_held_against_lines_at_size(block: Job, petg: Material) -> None:
    """A bore as wide as the lines that the limit names goes; drawn so and printed at 90 % it may close."""
    wide = block.limits.of("bore.lines", "low_lines").value * block.settings.line_width_mm.value
    bores = (SimpleNamespace(drawn_diameter_mm=wide), SimpleNamespace(drawn_diameter_mm=3 * wide))

    assert _worst(small_bores(_case(block, petg, bores=bores))) is Verdict.GO
    assert _worst(small_bores(_case(block, petg, Scale(90.0), bores=bores))) is Verdict.GO_WITH_WORK
    assert small_bores(_case(block, petg)) == []


@pytest.mark.parametrize(("brim", "told"), [(False, True), (True, False)])
def test_a_long_part_that_warps_is_told_where_no_brim_holds_it(
    block: Job, petg: Material, brim: bool, told: bool
) -> None:
    """A tenth over the limit without a brim is told; with one it may be four times as long."""
    limits = block.limits
    brim_mm = limits.of("warp.span", "brim_mm").value if brim else 0.0
    job = replace(block, settings=replace(block.settings, brim_mm=stated(brim_mm)))
    long_mm = 1.1 * limits.of("warp.span", "most_mm").value / 0.5
    case = _case(job, replace(petg, warp=stated(0.5)), size_mm=(10.0, long_mm, 5.0))
    (finding,) = warp_span(case)

    assert bool(finding.caution) is told
    assert finding.measured == pytest.approx(0.5 * long_mm)
