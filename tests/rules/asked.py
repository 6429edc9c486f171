"""What the settings rules say of a job with some settings, without layers, or with a part laid in layers."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from planner.finding import Finding
from planner.job import Job, read_material
from planner.layers import estimate_part
from planner.mesh import Solid, posed
from planner.rules import settings_findings
from planner.scale import DRAWN
from planner.sourced import stated

DOWN = (0.0, 0.0, -1.0)


def asked(job: Job, rule: str, *, material: str = "petg", solid: Solid | None = None, **changes: Any) -> list[Finding]:
    """Return all findings of one rule; ``solid`` is the job's one part, to be laid in layers."""
    values: dict[str, Any] = {key: value if isinstance(value, int) else stated(value) for key, value in changes.items()}
    own, plastic = replace(job, settings=replace(job.settings, **values)), read_material(material, Path())
    name = job.parts[0].name
    estimates = {}
    if solid is not None:
        laid = estimate_part(posed(solid, DOWN), settings=own.settings, printer=own.printer, material=plastic)
        estimates = {name: replace(laid, part=name)}
    found = settings_findings(own, plastic, surveys={}, estimates=estimates, downs={name: DOWN}, scale=DRAWN)
    return [finding for finding in found if finding.rule == rule]
