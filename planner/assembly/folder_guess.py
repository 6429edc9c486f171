"""What a folder of meshes says by itself: duties by name and form, hardware by bore, straps by slot, and twins.

Everything here is the likeliest answer to a doubt, marked as a guess in its record; a person's answer says better.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import TypeVar

import numpy as np

from planner.assembly.doubts import answers_by_size, role_of, unit_doubt
from planner.finding import Guess
from planner.job import Cord, Hardware, Job, Joint, LeftOpen, Part, Strap
from planner.survey import Survey

Filled = TypeVar("Filled", Hardware, LeftOpen, Cord, Strap, Joint)
GUESSED: Mapping[type, tuple[str, ...]] = {
    Hardware: ("kind", "diameter_mm", "fit", "count", "nut", "size_mm"),
    LeftOpen: ("parts",),
    Cord: ("diameter_mm",),
    Strap: ("webbing_mm",),
    Joint: ("how",),
}
"""What is a guess in each record; the meshes show the rest."""


def with_guesses(job: Job, surveys: Mapping[str, Survey]) -> Job:
    """Return the job with the likeliest duties, hardware, cords and straps filled in, each marked as guessed."""
    parts = tuple(_with_duty(part, surveys[part.name]) for part in job.parts)
    sure = unit_doubt(job, surveys) is None  # in another unit every bore is of another size
    likely = [answers[0] for answers in answers_by_size(job, surveys)] if sure else []
    return replace(
        job,
        parts=parts,
        hardware=(*job.hardware, *(_marked(one) for answer in likely for one in answer.hardware)),
        left_open=(*job.left_open, *(_marked(one) for answer in likely for one in answer.left_open)),
        cords=(*job.cords, *(_marked(one) for answer in likely for one in answer.cords)),
        straps=(*job.straps, *(_marked(one) for answer in likely for one in answer.straps)),
        joints=(*job.joints, *(_marked(one) for one in dict.fromkeys(j for answer in likely for j in answer.joints))),
        notes=(*job.notes, *twins_of(parts, surveys)),
    )


def _with_duty(part: Part, survey: Survey) -> Part:
    """Return a part with the duty that its name or form tells."""
    if part.duty is not None:
        return part
    return replace(part, duty=role_of(part.name, survey).duty, guessed=(*part.guessed, "duty"))


def _marked(record: Filled) -> Filled:
    """Return a record with what is a guess in it named."""
    known = {field.name for field in fields(record) if getattr(record, field.name) is not None}
    return replace(record, guessed=tuple(key for key in GUESSED[type(record)] if key in known))


def twins_of(parts: tuple[Part, ...], surveys: Mapping[str, Survey]) -> list[Guess]:
    """Name the pairs that look like mirror images or copies of each other."""
    notes = []
    for index, one in enumerate(parts):
        for other in parts[index + 1 :]:
            a, b = surveys[one.name], surveys[other.name]
            alike = a.triangles_n == b.triangles_n and np.isclose(a.volume_mm3, b.volume_mm3, rtol=1e-3)
            if alike and np.allclose(np.sort(a.size_mm), np.sort(b.size_mm), rtol=1e-3):
                told = "copies, or a left and a right one: same size, volume and number of triangles"
                notes.append(Guess(what=f"{one.name} and {other.name}", value="twins?", why=told))
    return notes
