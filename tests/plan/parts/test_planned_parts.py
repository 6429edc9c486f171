"""Parts at size: whose factors count, and file names that say part, percent and side."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.plan import Plan
from planner.plan.parts.planned_parts import factors_of, file_stem


def test_a_part_with_a_scale_of_its_own_keeps_it(heron_plan: Plan) -> None:
    """The job's percent on all axes, or the part's: one number, or three."""
    part = heron_plan.job.part("deck")

    assert factors_of(part, 112.0) == pytest.approx((1.12, 1.12, 1.12))
    assert factors_of(replace(part, scale_percent=100.0), 112.0) == (1.0, 1.0, 1.0)
    assert factors_of(replace(part, scale_percent=(100.0, 100.0, 110.0)), 112.0) == pytest.approx((1.0, 1.0, 1.1))


@pytest.mark.parametrize(
    ("name", "factors", "side", "stem"),
    [
        ("cuff", (1.12, 1.12, 1.12), "left", "cuff-112pc-left"),
        ("cuff", (1.065, 1.065, 1.065), "", "cuff-106.5pc"),
        ("cuff", (1.0, 1.0, 1.1), "", "cuff-100x100x110pc"),
        ("a b/c:d", (1.0, 1.0, 1.0), "", "a-b-c-d-100pc"),
        ("../..", (1.0, 1.0, 1.0), "", "--100pc"),
        ("..", (1.0, 1.0, 1.0), "", "part-100pc"),
    ],
)
def test_file_names_hold_on_every_system(
    heron_plan: Plan, name: str, factors: tuple[float, float, float], side: str, stem: str
) -> None:
    """Letters, digits, hyphens and dots alone; no name climbs out of its folder."""
    job = replace(heron_plan.job, size=replace(heron_plan.job.size, side=side))  # type: ignore[arg-type]
    found = file_stem(replace(heron_plan.job.parts[0], name=name), factors, job)

    assert found == stem
    assert "/" not in found
    assert not found.startswith(".")


def test_every_part_of_a_plan_has_a_file_of_its_own_and_counts_at_its_size(heron_plan: Plan) -> None:
    """No two files are one; the volume at size is the drawn one times the three factors, mirrored or not."""
    files = [part.file for part in heron_plan.parts]

    assert len(set(files)) == len(files)
    for part in heron_plan.parts:
        x, y, z = part.scale_percent
        assert part.posed.volume_mm3 == pytest.approx(part.solid.volume_mm3 * x * y * z / 1e6, rel=1e-9)
        assert part.posed.bounds_mm[0][2] == pytest.approx(0.0, abs=1e-9)
