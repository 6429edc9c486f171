"""A printed pin or shaft that keeps its size while the device grows or shrinks, as what is bought does."""

from __future__ import annotations

from collections.abc import Iterator

from planner.job import Edit
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.rule_answers import Again, Stand
from planner.scale import DRAWN


def kept_as_drawn(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield, at its drawn size, a part that is printed as hardware, or whose peg goes into a bearing or washer."""
    keeps = {piece.printed for piece in stand.job.hardware if piece.printed}
    bought = {piece.name for piece in stand.job.hardware}
    in_ring = any(feature.partition(" in ")[2] in bought for feature in group.features)  # "p1 in bearing"
    if (group.part in keeps or in_ring) and stand.job.part(group.part).scale_percent is None:
        yield Candidate(
            kind="keep",
            text=f"print {group.part} at {DRAWN.percent:g} % whatever the size of the device",
            part=group.part,
            does=(Edit(table="part", name=group.part, put={"scale": DRAWN.percent}),),
        )
