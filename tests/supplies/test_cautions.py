"""Cautions: each once, and none of them calls anything safe."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.job import Job, Padding, read_job
from planner.sourced import stated
from planner.supplies import (
    cautions,
)


def test_the_usual_cautions_are_said_once(heron: Path) -> None:
    """Test print, skin, drilling, hot water, unattended printing, who decides: each once; nothing is called safe."""
    job: Job = read_job(heron)
    said = cautions(job, job.materials[0], 85.0, work=True)
    text = " ".join(caution.text for caution in said)

    assert len({caution.about for caution in said}) == len(said)
    for word in (
        "measure a test bore",
        "skin",
        "eye protection",
        "never heat anything on the wearer",
        "unattended",
        "below 90 %",
        "licensed",
    ):
        assert word in text
    assert " safe" not in text


def test_skin_is_warned_of_wherever_the_job_tells_of_it(heron: Path) -> None:
    """A skin side or padding tells of skin as much as [use] does; without all three nothing is said."""
    job = read_job(heron)
    bare = replace(
        job,
        use=replace(job.use, skin=False),
        paddings=(),
        parts=tuple(replace(part, skin_side=False, skin_toward=None) for part in job.parts),
    )
    first = bare.parts[0]
    told = (
        replace(bare, use=job.use),
        replace(bare, paddings=(Padding(part=first.name, thickness_mm=3.0, area_mm2=100.0),)),
        replace(bare, parts=(replace(first, skin_side=True), *bare.parts[1:])),
        replace(bare, parts=(replace(first, skin_toward=(0.0, 0.0, -1.0)), *bare.parts[1:])),
    )

    def said(one: Job) -> bool:
        return any(caution.about == "skin" for caution in cautions(one, one.materials[0], 100.0, work=False))

    assert not said(bare)
    assert all(said(one) for one in told)


def test_the_age_of_small_parts_is_that_of_the_limits(heron: Path) -> None:
    """Where a chapter's limits put the age at five, a child of four is cautioned, as the rule holds there."""
    job = read_job(heron)
    limits = replace(job.limits, small_age_years=stated(5.0, "limits of a chapter"))
    four = replace(job, use=replace(job.use, recipient_age_years=4.0, mouthing=False), limits=limits)
    text = {one.about: one.text for one in cautions(four, four.materials[0], 100.0, work=False)}

    assert "under 5 years old" in text["small parts"]
