"""Cautions: each once, and none of them calls anything safe."""

from __future__ import annotations

from pathlib import Path

from planner.job import Job, read_job
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
