"""Several tables of cords that one joint of the body draws at once: what they ask of it together, and what is told."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import networkx as nx

from planner.job import Cord, Drive, Equaliser
from planner.mechanism.cord.cord_run import CordRun
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.pull_of_one_table import Kept
from planner.mechanism.force.equaliser import hand_pull_n, one_stops_words
from planner.mechanism.movement.move_records import NO_PULL_N, CordMove
from planner.phrases import listed

SAME_MM = 0.5
"""Ways that differ by less are one: a knot is set no better; common practice, no source."""
LEAST_N = 1e-6
ONE, TWO = 1, 2
HAND = "hand"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """One table of cords.

    Parameters
    ----------
    move
        What it does if nothing else is drawn.
    senses
        For every joint that it crosses, 1 where the angle grows as the cord is drawn, else -1.
    grip_for
        The grip for the pull that can be kept up where it gets a share of that; None where it is not known.
    """

    cord: Cord
    move: CordMove
    senses: Mapping[str, int]
    grip_for: Callable[[float], Kept | None] | None = None
    hold_n: Callable[[], float] | None = None
    """The pull that goes on closing without a grip, as expected; None where it is not known."""


def body_of(cord: Cord, drive: Drive | None) -> str:
    """Return the joint of the body that draws a cord: as it states, else that of [drive], else the hand."""
    return cord.drawn_from or (drive.joint if drive else HAND)


def senses_of(ways: Sequence[tuple[StrungCord, Sequence[CordRun]]]) -> dict[str, int]:
    """Return for every joint that some cords cross 1 where its angle grows as they are drawn, else -1."""
    return {
        leg.joint.name: 1 if sum(run.arm_mm) < 0.0 else -1
        for way, runs in ways
        for leg, run in zip(way.legs, runs, strict=True)
    }


def at_one_hand(drive: Drive | None, every: Sequence[Drawn]) -> tuple[CordMove, ...]:
    """Return all cords with what counts where several are drawn at once: the pull of all, and what is not known."""
    groups: dict[str, list[Drawn]] = {}
    for one in every:
        if one.cord.pulls:
            groups.setdefault(body_of(one.cord, drive), []).append(one)
    found = {id(one): one.move for one in every}
    for body, group in groups.items():
        if len(group) > ONE:
            found |= {id(one): move for one, move in zip(group, _together(body, group), strict=True)}
    return tuple(found[id(one)] for one in every)


def _together(body: str, group: Sequence[Drawn]) -> list[CordMove]:
    """Return what one joint of the body draws at once."""
    why = _against(body, group) or _unlike(body, group)
    if why:
        return [_held(one.move, why, travels=True) for one in group]
    lost = next((one.move for one in group if one.move.pull_n is None), None)
    if lost is not None:
        reason = lost.unknown or lost.pull_unknown or "it is not worked out"
        why = f"the {body} draws {_names(group)} at once, and the pull of {lost.name} is not known: {reason}"
        return [one.move if one.move.pull_n is None else _held(one.move, why) for one in group]
    kind = group[0].cord.equaliser if all(one.cord.count == ONE for one in group) else None
    bunches = _bunches(group)
    asks = [_asks(bunch) for bunch in bunches]
    pull = tuple(min(hand_pull_n(kind, [each[k] for each in asks]), NO_PULL_N) for k in range(3))
    moves = []
    for bunch, own in zip(bunches, asks, strict=True):
        share = _share(kind, own[1], pull[1], len(bunches))
        for one in bunch:
            grip = None if one.grip_for is None else one.grip_for(min(share, 1.0))
            told = _told(body, kind, group, one, bunch)
            more = {"pull_n": pull, "grip_for_n": grip, "together": told, "hand_mm": _hand_mm(kind, group)}
            moves.append((one, replace(one.move, **more)))  # type: ignore[arg-type]
    order = {id(one): move for one, move in moves}
    return [order[id(one)] for one in group]


def _share(kind: Equaliser | None, own_n: float, whole_n: float, bunches_n: int) -> float:
    """Return the share of the hand's pull that goes to one bunch: alike over a pulley or bar, else as they ask."""
    if kind in ("pulley", "bar"):
        return 1.0 / bunches_n
    return own_n / whole_n if whole_n > LEAST_N else 1.0


def _held(move: CordMove, why: str, *, travels: bool = False) -> CordMove:
    """Return a cord whose pull is not known, nor, where asked, whether its travel is had."""
    held = replace(move, pull_n=None, curve_n=(), each_n=(), grip_for_n=None, shared="", pull_unknown=why)
    return replace(held, ways_unknown=held.ways_unknown or why) if travels else held


def _against(body: str, group: Sequence[Drawn]) -> str:
    """Say that two cords of one joint of the body turn one of the device's joints against each other."""
    for one, other in combinations(group, TWO):
        for joint, sense in one.senses.items():
            if other.senses.get(joint, sense) != sense:
                return (
                    f"{one.cord.name} and {other.cord.name} turn {joint} against each other, and the {body} is said "
                    "to draw both: which way of it draws which? Write another from where another joint draws one"
                )
    return ""


def _unlike(body: str, group: Sequence[Drawn]) -> str:
    """Say that cords of one joint of the body, each alone in its table, state different equalisers."""
    kinds = {one.cord.name: one.cord.equaliser for one in group if one.cord.count == ONE}
    if len(kinds) < len(group) or len(set(kinds.values())) < TWO:
        return ""
    told = ", ".join(f"{name}: {kind or 'none'}" for name, kind in kinds.items())
    return f"how the {body} shares its pull among {_names(group)} is not known ({told}): write one equaliser for all"


def _bunches(group: Sequence[Drawn]) -> list[list[Drawn]]:
    """Return cords by what they move: those that cross one joint help each other there."""
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(group)))
    for a, b in combinations(range(len(group)), TWO):
        if set(group[a].senses) & set(group[b].senses):
            graph.add_edge(a, b)
    return [[group[n] for n in sorted(part)] for part in nx.connected_components(graph)]


def _asks(bunch: Sequence[Drawn]) -> tuple[float, float, float]:
    """Return what cords on one joint ask together: between the easiest alone and the hardest alone."""
    pulls = [one.move.pull_n for one in bunch if one.move.pull_n is not None]
    lows, expected, highs = zip(*pulls, strict=True)
    return min(lows), max(expected), max(highs)


def _hand_mm(kind: Equaliser | None, group: Sequence[Drawn]) -> float | None:
    """Return what the body must draw where a pulley or a bar shares it: the mean of the ways; None: each its own."""
    ways = [asks for one in group if (asks := replace(one.move, hand_mm=None).asks_mm) is not None]
    return sum(ways) / len(ways) if kind in ("pulley", "bar") and len(ways) == len(group) else None


def _told(body: str, kind: Equaliser | None, group: Sequence[Drawn], one: Drawn, bunch: Sequence[Drawn]) -> str:
    """Say what the body draws at once, and how much slacker this cord is tied than the one with the longest way."""
    told = f"the {body} draws {_names(group)} at once"
    if len(bunch) == len(group):
        return f"{told}: they work on one joint, so the pull is that of the harder one"
    if kind in ("pulley", "bar"):
        told = f"{told}, over a {kind}: the pull is what that asks for all of them, the travel the mean of theirs"
        return "; ".join(filter(None, (told, _one_stops(kind, group))))
    told = f"{told}: their pulls add, and each must have its travel"
    if kind == "knot":
        told = "; ".join(filter(None, (told, _one_stops(kind, group))))
    longest = max(group, key=lambda each: each.move.asks_mm or 0.0)
    spare = (longest.move.asks_mm or 0.0) - (one.move.asks_mm or 0.0)
    if spare < SAME_MM:
        return told
    return (
        f"{told}; tie {one.cord.name} {spare:.1f} mm slacker than {longest.cord.name}, or it ends first and stops both"
    )


def _one_stops(kind: Equaliser, group: Sequence[Drawn]) -> str:
    """Say what happens where one of several fingers touches first; empty where a pull is not known."""
    holds = [one.hold_n() for one in group if one.hold_n is not None]
    asks = [one.move.pull_n[1] for one in group if one.move.pull_n is not None]
    if len(holds) < len(group) or len(asks) < len(group):
        return ""
    return one_stops_words(kind, hand_pull_n(kind, asks), max(holds), len(group))


def _names(group: Sequence[Drawn]) -> str:
    """Return the names of cords."""
    return listed(one.cord.name for one in group)
