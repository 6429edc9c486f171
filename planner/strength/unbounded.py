"""Parts whose loads are not bounded by what is known: links of closed loops, and what grips past a dead point."""

from __future__ import annotations

from planner.job import part_of
from planner.mechanism import Movement


def past_dead_point(movement: Movement | None) -> tuple[str, frozenset[str]]:
    """Return where a cord passes a dead point, in words, and all links of closed loops; nothing where none does.

    How hard links press each other has no end there, no more than what the cord grips.
    """
    cords = () if movement is None else movement.cords_at(1.0).cords
    locks = next((f"{one.name}: {one.locks}" for one in cords if one.locks), "")
    if movement is None or not locks:
        return "", frozenset()
    looped = {name for loop in movement.mechanism.loops for name in loop}
    joints = movement.mechanism.joints
    return locks, frozenset(part_of(copy) for one in joints if one.name in looped for copy in one.parts)


def untold_parts(movement: Movement | None, grip_n: float) -> dict[str, str]:
    """Return the parts in closed loops whose pins may press them harder than is known under a grip, each with why."""
    links = {} if movement is None else movement.untold_links(grip_n)
    return {part_of(copy): why for copy, why in links.items()}
