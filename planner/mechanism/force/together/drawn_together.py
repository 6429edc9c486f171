"""The pull of cords that share joints, or hold each other's tips, over the whole way from open to closed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.mechanism.force.together.asked_alone import JointAsk
from planner.mechanism.force.together.shared_joints import Needs, even_n, least_n, most_n


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """What one cord asks at one joint, and how many times its own pull the hand gives for it."""

    cord: str
    cords_n: float
    ask: JointAsk


def together_n(every: Sequence[Asking], even_cords_n: int = 0) -> tuple[float, float, float]:
    """Return the pull of all at the hand: the least with the least friction, the most as expected and with the most.

    ``even_cords_n`` is how many cords pull alike, as over a pulley; 0 where each has its own pull.
    """
    shares = sorted({share for one in every for share in one.ask.shares})

    def over(level: int) -> list[float]:
        each = even_n if even_cords_n else most_n
        return [each(_needs(every, share, level)) * (even_cords_n or 1) for share in shares]

    low = [_needs(every, share, 0, on_stops=True) for share in shares]
    least = max(map(even_n, low)) * even_cords_n if even_cords_n else least_n(max(low, key=most_n))
    return least, max(over(1)), max(over(2))


def _needs(every: Sequence[Asking], share: float, level: int, *, on_stops: bool = False) -> list[Needs]:
    """Return for every joint what each cord alone needs there, at a share of the way and a level of friction.

    With ``on_stops`` a joint that may rest on a stop asks for nothing where its cord turns another.
    """
    free = {one.cord for one in every if not one.ask.on_stop} if on_stops else set()
    found: dict[str, dict[str, list[float]]] = {}
    for one in every:
        if not (on_stops and one.ask.on_stop and one.cord in free):
            pull = one.cords_n * one.ask.at(share, level)
            found.setdefault(one.ask.name, {}).setdefault(one.cord, []).append(pull)
    return [{cord: _side_by_side(pulls) for cord, pulls in joint.items()} for joint in found.values()]


def _side_by_side(pulls_n: Sequence[float]) -> float:
    """Return what is needed where one pull reaches a joint by several cords alike: each takes its part."""
    helps = sum(1.0 / pull if pull > 0.0 else math.inf for pull in pulls_n)
    return 1.0 / helps if helps > 0.0 else math.inf
