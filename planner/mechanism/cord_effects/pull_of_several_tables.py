"""Several tables of cords that one joint of the body draws at once: what they ask of it together, and what is told."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import networkx as nx
from scipy.optimize import brentq

from planner.job import Cord, Drive, Equaliser
from planner.mechanism.cord.cord_run import CordRun
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.pull_of_one_table import Kept
from planner.mechanism.force.equaliser import hand_pull_n, one_stops_words
from planner.mechanism.force.together.asked_alone import Gripping, JointAsk
from planner.mechanism.force.together.drawn_together import Asking, together_n
from planner.mechanism.movement.move_records import NO_PULL_N, CordMove
from planner.phrases import listed

SAME_MM = 0.5
"""Ways that differ by less are one: a knot is set no better; common practice, no source."""
LEAST_N = 1e-6
MOST_GRIP_N = 1000.0
"""No hand of plastic grips harder: where more is found nothing bounds it; no source."""
GRIP_N = 1e-3
EVEN_KINDS = ("pulley", "bar")
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
    holds: tuple[tuple[Gripping, frozenset[str]], ...] = ()
    """Of every joint that it turns: the tip of its own cord, and the copies that move; empty where not known."""
    fingers: int = 1
    """How many copies its cords drive."""
    beside: str = ""
    """That it begins on what moves, or passes a joint that it is not asked about, in words; empty else."""
    asks: Callable[[Sequence[Gripping], float], Sequence[JointAsk]] | None = None
    """What its cords alone need at each joint, with other tips that weigh on it, for a grip in newtons."""

    @property
    def tips(self) -> tuple[Gripping, ...]:
        """Where its cords grip."""
        return tuple(dict.fromkeys(tip for tip, _ in self.holds))


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
    tips = [tip for one in every if one.cord.pulls for tip in one.tips]
    for body, group in groups.items():
        if len(group) > ONE or _laden(group, tips):
            found |= {id(one): move for one, move in zip(group, _together(body, group, tips), strict=True)}
    return tuple(found[id(one)] for one in every)


def _together(body: str, group: Sequence[Drawn], tips: Sequence[Gripping]) -> list[CordMove]:
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
    asks = [_asks(kind, bunch, tips) for bunch in bunches]
    whole = [_of_all(kind, bunches, [each[k] for each in asks]) for k in range(3)]
    pull = whole[0], whole[1], whole[2]
    moves = []
    for bunch, own in zip(bunches, asks, strict=True):
        share = min(_share(kind, own[1], pull[1], len(bunch) / len(group)), 1.0)
        for one in bunch:
            grip = _kept(kind, one, bunch, tips, share)
            told = _told(body, kind, group, one, bunch, tips)
            move = replace(one.move, pull_n=pull, grip_for_n=grip, together=told, hand_mm=_hand_mm(kind, group))
            if _laden(bunch, tips):
                move = replace(move, curve_n=(), each_n=())  # they tell of its own tip alone
            moves.append((one, move))
    order = {id(one): move for one, move in moves}
    return [order[id(one)] for one in group]


def _of_all(kind: Equaliser | None, bunches: Sequence[Sequence[Drawn]], asks_n: Sequence[float]) -> float:
    """Return the pull at the hand for what each bunch asks: over a pulley or bar all cords pull as the hardest."""
    if kind in EVEN_KINDS:
        cords = sum(map(len, bunches))
        return min(cords * max(own / len(bunch) for own, bunch in zip(asks_n, bunches, strict=True)), NO_PULL_N)
    return min(hand_pull_n(kind, asks_n), NO_PULL_N)


def _share(kind: Equaliser | None, own_n: float, whole_n: float, cords_share: float) -> float:
    """Return the share of the hand's pull that goes to one bunch: by cords over a pulley or bar, else as it asks."""
    if kind in EVEN_KINDS:
        return cords_share
    return own_n / whole_n if whole_n > LEAST_N else 1.0


def _kept(
    kind: Equaliser | None, one: Drawn, bunch: Sequence[Drawn], tips: Sequence[Gripping], share: float
) -> Kept | None:
    """Return the grip for the pull that can be kept up: where cords work together, by what all of them ask for it."""
    alone = None if one.grip_for is None else one.grip_for(share)
    if alone is None or not (len(bunch) > ONE or _laden(bunch, tips)):
        return alone
    most_n = share * alone[0]
    least, expected, most = (_grip_n(lambda grip, k=k: _asks(kind, bunch, tips, grip)[k], most_n) for k in range(3))  # type: ignore[misc]
    return alone[0], most, expected, least, max(alone[4], least)


def _grip_n(asks_n: Callable[[float], float], most_n: float) -> float:
    """Return the grip for which so much is asked; at most ``MOST_GRIP_N``."""
    if asks_n(0.0) >= most_n:
        return 0.0
    if asks_n(MOST_GRIP_N) <= most_n:
        return MOST_GRIP_N
    return float(brentq(lambda grip_n: asks_n(grip_n) - most_n, 0.0, MOST_GRIP_N, xtol=GRIP_N))


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
    """Return cords by what they move: those that cross one joint help each other there, or hold each other's tips."""
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(group)))
    for a, b in combinations(range(len(group)), TWO):
        one, other = group[a], group[b]
        if set(one.senses) & set(other.senses) or _laden([one], other.tips) or _laden([other], one.tips):
            graph.add_edge(a, b)
    return [[group[n] for n in sorted(part)] for part in nx.connected_components(graph)]


def _laden(bunch: Sequence[Drawn], tips: Sequence[Gripping]) -> bool:
    """Return whether the joints of some cords also hold what another body grips."""
    return any(tip.copy in moved and tip.body != own.body for one in bunch for own, moved in one.holds for tip in tips)


def laden_by_others(every: Sequence[Drawn]) -> frozenset[str]:
    """Return the names of cords whose joints also hold what the cords of others grip."""
    tips = [tip for one in every if one.cord.pulls for tip in one.tips]
    return frozenset(one.cord.name for one in every if one.cord.pulls and _laden([one], tips))


def _asks(
    kind: Equaliser | None, bunch: Sequence[Drawn], tips: Sequence[Gripping], grip_n: float | None = None
) -> tuple[float, float, float]:
    """Return what cords that work together ask: the least of all ways to tie them, then the most."""
    pulls = [one.move.pull_n for one in bunch if one.move.pull_n is not None]
    if len(bunch) == ONE and not _laden(bunch, tips) and grip_n is None:
        return pulls[0]
    every = [asking for one in bunch for asking in _asking(one, tips, grip_n)]
    low, expected, high = together_n(every, len(bunch) if kind in EVEN_KINDS else 0)
    return min(low, NO_PULL_N), min(expected, NO_PULL_N), min(high, NO_PULL_N)


def _asking(one: Drawn, tips: Sequence[Gripping], grip_n: float | None) -> list[Asking]:
    """Return what a table's cords ask at each joint: those over a pulley or bar as one, those tied each for itself."""
    if one.asks is None:
        raise ValueError(f"what {one.cord.name} asks at its joints is not known")
    asks = one.asks(tips, (one.move.grip_n or 0.0) if grip_n is None else grip_n)
    driven, even = list(dict.fromkeys(ask.driven for ask in asks)), one.cord.equaliser in EVEN_KINDS
    found = []
    for ask in asks:
        beside = sum(other.driven == ask.driven and other.name == ask.name for other in asks)
        cords_n = beside * (one.fingers if even else one.fingers / len(driven))
        name = one.cord.name if even else f"{one.cord.name} {ask.driven}"
        found.append(Asking(cord=name, cords_n=cords_n, ask=ask))
    return found


def _hand_mm(kind: Equaliser | None, group: Sequence[Drawn]) -> float | None:
    """Return what the body must draw where a pulley or a bar shares it: the mean of the ways; None: each its own."""
    ways = [asks for one in group if (asks := replace(one.move, hand_mm=None).asks_mm) is not None]
    return sum(ways) / len(ways) if kind in EVEN_KINDS and len(ways) == len(group) else None


def _told(
    body: str,
    kind: Equaliser | None,
    group: Sequence[Drawn],
    one: Drawn,
    bunch: Sequence[Drawn],
    tips: Sequence[Gripping],
) -> str:
    """Say what the body draws at once, and how much slacker this cord is tied than the one with the longest way."""
    if len(group) == ONE:
        return "its joints hold what other cords grip, too"
    told = f"the {body} draws {_names(group)} at once"
    if len(bunch) == len(group) and len({frozenset(each.senses) for each in bunch}) == ONE and not _laden(bunch, tips):
        return f"{told}: they work on one joint, so the pull is that of the harder one"
    if len(bunch) > ONE:
        told = f"{told}; {_names(bunch)} share joints, or one holds what another grips"
    if kind in EVEN_KINDS:
        told = f"{told}, over a {kind}: the pull is what the {kind} needs for all of them"
        told += ", the travel is the mean of theirs"
        return "; ".join(filter(None, (told, _one_stops(kind, group))))
    told = f"{told}: their pulls add, and each must have its travel"
    if kind == "knot":
        told = "; ".join(filter(None, (told, _one_stops(kind, group))))
    longest = max(group, key=lambda each: each.move.asks_mm or 0.0)
    spare = (longest.move.asks_mm or 0.0) - (one.move.asks_mm or 0.0)
    if spare < SAME_MM:
        return told
    return (
        f"{told}; tie {one.cord.name} {spare:.1f} mm slacker than {longest.cord.name}; otherwise {one.cord.name} "
        "reaches the end of its way first and stops both"
    )


def _one_stops(kind: Equaliser, group: Sequence[Drawn]) -> str:
    """Say what happens where one of several fingers touches first; empty where a pull is not known."""
    holds = [one.hold_n() for one in group if one.hold_n is not None]
    asks = [one.move.pull_n[1] for one in group if one.move.pull_n is not None]
    if len(holds) < len(group) or len(asks) < len(group):
        return ""
    return one_stops_words(kind, hand_pull_n(kind, asks), holds)


def _names(group: Sequence[Drawn]) -> str:
    """Return the names of cords."""
    return listed(one.cord.name for one in group)
