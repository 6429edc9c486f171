"""One end of a joint's range over scale: where it ends, what ends it, and what that leaves open."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from planner.mechanism.judging.move_range import MoveEnd
from planner.mechanism.judging.range_ends import KNOTS, end_at, end_over
from planner.mechanism.judging.yielding_stop import gives_way
from planner.mechanism.movement.move_records import JointMove
from planner.mechanism.movement.movement import Movement
from planner.mechanism.movement.stop_words import stop_words
from planner.mechanism.range.joint_range import Stop
from planner.phrases import listed

FROM_DRAWN = sorted(KNOTS, key=lambda s: abs(math.log(s)))
"""The sizes that are asked, the nearest to the drawn one first."""
CURES = {
    "locked": "change the distances between the axes of the chain",
    "stated": "move the stop that limits_deg stands for",
}
"""What helps where no material is in the way."""


def move_end(movement: Movement, joint: JointMove, side: int, *, firm: bool = False, drawn: bool = False) -> MoveEnd:
    """Return one end of a joint's range over scale, and what ends it: where it is short of its need, what keeps it.

    ``side`` is 0 for the lower end; ``firm``: without what is soft or a guess, which is asked for where such a thing
    keeps the joint from its need; ``drawn``: at the drawn size alone, where that alone is told.
    """
    asked = movement.firm_range_at if firm else movement.range_at

    def value(s: float) -> float | None:
        return asked(joint.name, s).free_deg[side]

    level = level_of(joint, side)
    curve = end_at(value, 1.0) if drawn else end_over(value, side, level)
    ends = [(s, end) for s in (FROM_DRAWN[:1] if drawn else FROM_DRAWN) if (end := value(s)) is not None]
    short = _short(ends, level, side)
    at = next((s for s, _ in (*short, *ends)), 1.0)
    stops = asked(joint.name, at).stops
    if not ends or not stops:
        return MoveEnd(curve=curve, meets="something is in the way", reach_mm=0.0)
    end = value(at) or 0.0
    stop = min(stops, key=lambda one: abs(one.at_deg - end))
    meets, cure = _words(joint, stop, stops)
    yields = bool(short) and (stop.soft or stop.guessed)
    return MoveEnd(
        curve=curve,
        meets=meets,
        reach_mm=stop.arm_mm or 0.0,
        guess=_unsure(movement, stop) if stop.guessed else "",
        soft=stop.soft,
        leader=joint.follows if any(one.what == "locked" for one in stops) else "",
        cure=cure,
        doubt=_doubt(movement, joint, stop, side if short else None),
        behind=move_end(movement, joint, side, firm=True, drawn=drawn) if yields and not firm else None,
    )


def level_of(joint: JointMove, side: int) -> Callable[[float], float] | None:
    """Return what an end ought to reach at a scale; None where nobody said."""
    if joint.needs_deg is None:
        return None
    needs = joint.needs_deg[side]
    return (lambda s: needs * s) if joint.unit == "mm" else (lambda _: needs)


def _short(
    ends: Sequence[tuple[float, float]], level: Callable[[float], float] | None, side: int
) -> list[tuple[float, float]]:
    """Return the sizes at which an end is short of what it ought to reach."""
    sense = 1.0 if side else -1.0
    return [] if level is None else [(s, end) for s, end in ends if sense * (level(s) - end) > 0.0]


def _words(joint: JointMove, stop: Stop, stops: Sequence[Stop]) -> tuple[str, str]:
    """Return what ends a range, and what helps; the stops of what follows are counted in the joint that leads."""
    if not joint.follows:
        return stop_words(stop), CURES.get(stop.what, "")
    led = [one for one in stops if one.what in ("meets", "near")] or [stop]
    words = listed(dict.fromkeys(stop_words(one) for one in led), "or")
    meets = f"{joint.follows} leads it and ends there: {words}"
    return meets, f"let {joint.follows} go farther, or write the [[joint]] that drives first"


def _unsure(movement: Movement, stop: Stop) -> str:
    """Return the question about what is a guess where two bodies meet: hardware, or a copy at any angle."""
    placed = movement.mechanism.placed
    for name in stop.parts:
        if name not in movement.mechanism.frames:
            return f"Is the {name} as large as usual, and does it stand there?"
    loose = [name for name in stop.parts if name in placed.free] or stop.parts
    return f"At which angle does {listed(loose)} stand?"


def _doubt(movement: Movement, joint: JointMove, stop: Stop, side: int | None) -> str:
    """Return the question that a stop hangs on; empty where it hangs on none.

    How a pin moves in a slot, and, at an end (``side``) that is short of its need, whether another joint that stood as
    drawn may go aside.
    """
    mechanism = movement.mechanism
    for owner, other in mechanism.asked:
        beyond = {owner, other} - set(joint.parts)
        if len(beyond) == 1 and beyond & set(stop.parts):
            return f"How does the pin of {other} move in the slot of {owner}?"
    one = mechanism.joint(joint.name)
    if side is None or one.needs_deg is None or stop.what not in ("meets", "near"):
        return ""
    return gives_way(movement.job, movement.solids, mechanism, one, stop.parts, side, one.needs_deg[side])
