"""A pattern is judged: its side, how it was laid flat, its stretch, and the area that the job states."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.job import Padding, read_job
from planner.mesh import Solid
from planner.pattern import Pattern, pattern_of
from tests.pattern.shells import bowl, half_shell, plate
from tests.shapes import ROOT

JOB = read_job(ROOT / "sample_parts" / "heron" / "job.toml")


def judged(solid: Solid, thick_mm: float = 3.0, area: float | None = None) -> tuple[Pattern, dict[str, Verdict]]:
    padding = Padding(part="cuff", thickness_mm=thick_mm, area_mm2=area)
    found = pattern_of(JOB, padding, solid, None, 1.0)
    return found, {finding.rule: finding.verdict for finding in found.findings}


def test_a_shell_is_go_with_a_buck() -> None:
    """Half a pipe passes every rule."""
    found, verdicts = judged(half_shell(31, 3.2, 100))

    assert set(verdicts.values()) == {Verdict.GO}
    assert found.buck is not None
    assert not found.bed_too_small


@pytest.mark.parametrize(
    ("solid", "rule"),
    [
        (plate(80, 40, 4), "padding.side"),
        (bowl(40, 3, 85, 24), "padding.stretch"),
        (half_shell(4.8, 2, 100), "padding.flat"),
    ],
)
def test_what_cannot_be_told_or_laid_is_a_hold(solid: Solid, rule: str) -> None:
    """A plate without a stated side, a deep bowl, a pipe too tight for its padding."""
    found, verdicts = judged(solid, 5.0)

    assert verdicts[rule] is Verdict.HOLD
    assert next(f for f in found.findings if f.rule == rule).remedy or rule == "padding.flat"


@pytest.mark.parametrize(("area", "verdict"), [(9300.0, Verdict.GO), (14600.0, Verdict.HOLD)])
def test_an_area_that_the_mesh_contradicts_is_a_hold(area: float, verdict: Verdict) -> None:
    """π 29.5 · 100 = 9268 mm²: stated 9300 passes, 14600 does not (15 %)."""
    assert judged(half_shell(31, 3.2, 100), area=area)[1]["padding.area"] is verdict


def test_a_side_that_nobody_stated_is_a_hold() -> None:
    """A bore is hollow, too: without skin_side or skin_toward the inside of a shell is only a guess."""
    job = replace(JOB, parts=(replace(JOB.part("cuff"), skin_side=False),))
    found = pattern_of(job, Padding(part="cuff", thickness_mm=3.0), half_shell(31, 3.2, 100), None, 1.0)

    assert found.flat is not None
    assert found.findings[0].verdict is Verdict.HOLD


def test_a_buck_larger_than_every_bed_is_told() -> None:
    """The sample's bed takes 220 mm; a buck of 400 does not lie on it."""
    assert judged(half_shell(60, 4, 400))[0].bed_too_small


def test_ease_makes_the_buck_smaller_and_leaves_the_pattern() -> None:
    """Inside of 31 mm, 3 mm of padding, 2 mm of ease: a bar of 26 mm radius (by hand); padding is cut as without."""
    plain, eased = (
        pattern_of(JOB, Padding(part="cuff", thickness_mm=3.0, ease_mm=ease), half_shell(31, 3.2, 100), None, 1.0)
        for ease in (0.0, 2.0)
    )

    assert plain.buck is not None
    assert eased.buck is not None
    assert sorted(plain.buck.size_mm)[1] == pytest.approx(2 * 28.0, abs=0.1)
    assert sorted(eased.buck.size_mm)[1] == pytest.approx(2 * 26.0, abs=0.1)
    assert eased.flat == plain.flat
