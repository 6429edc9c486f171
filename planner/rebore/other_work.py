"""At which sizes re-boring begins to do something else in a part: fit, narrow, widen, break out, lay a boss."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Job
from planner.rebore.opening_targets import Aim, aims_of
from planner.rebore.rebore import BOSS_MOST_MM, BREAK_MM, across_mm
from planner.rules import edge_limit
from planner.survey import Bore, Survey

BOSS_STEP = 1.005
"""Where a boss is laid, each size that is tried is this much larger than the one before."""


def other_work(
    job: Job, surveys: Mapping[str, Survey], claims: Sequence[Claim], downs: Mapping[str, Vec3]
) -> dict[str, tuple[float, ...]]:
    """Return for each part the scales, rising, at which what is done to one of its openings changes.

    Between two of them the same openings are filled, cut and given bosses, and only sizes differ. Where a boss is laid,
    what it stands out of differs too, so scales ``BOSS_STEP`` apart are named there. A part with a scale of its own
    has none.
    """
    parts = {part.name: edge_limit(job, part)[0] for part in job.parts if part.scale_percent is None}
    found: dict[str, set[float]] = {name: set() for name in parts}
    for aim in aims_of(job, surveys, claims, downs, dict.fromkeys(parts, 1.0)):
        found[aim.part].update(scale for scale in _turns(aim, parts[aim.part]) if 0.0 < scale < float("inf"))
    return {name: tuple(sorted(scales)) for name, scales in found.items()}


def _turns(aim: Aim, limit_mm: float) -> list[float]:
    """Return the scales at which another thing is done to one opening, whose aim is that at drawn size."""
    if aim.least_mm is None:
        return []
    pin = aim.pin_mm
    across = across_mm(aim)
    grows = pin * across / aim.target_mm  # of what is cut, through its corners: a printed pin grows with the device
    turns = [
        (end - share) / (size - share)
        for end, size, share in (
            (aim.least_mm, aim.inside_mm, pin),
            (aim.most_mm, aim.inside_mm, pin),
            (across, aim.before_mm, grows),
        )
        if size > share
    ]
    if not isinstance(aim.opening, Bore) or aim.opening.edge_wall_mm is None:
        return turns
    web, fixed = aim.opening.edge_wall_mm, across - grows
    beside = web + (aim.opening.drawn_diameter_mm - grows) / 2
    if beside <= 0.0:
        return turns
    turns += [(left + fixed / 2) / beside for left in (BREAK_MM, limit_mm)]
    turns += [limit_mm / web] if web > 0.0 else []
    if aim.kind == "bore":
        at_mm = max(BREAK_MM, limit_mm - BOSS_MOST_MM) + fixed / 2
        while at_mm < limit_mm + fixed / 2:
            turns.append(at_mm / beside)
            at_mm *= BOSS_STEP
    return turns
