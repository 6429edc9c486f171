"""Bores that several pieces of hardware might take: each is assigned once, by what shows whose it is, else asked for.

What shows it, in this order: the stated bore that comes nearer; the axis, or the pattern of axes, that it has in
common with the part that the hardware joins it to; what the others leave; the numbers stated, where it makes no
difference which of them it is; and that a pilot bore is blind and a running one goes through.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from itertools import islice, pairwise, product

from planner.assembly.bore_axes import BoreAxis, alike, axes_of, meet
from planner.assembly.pilot_in_part import in_part
from planner.job import Hardware, Job
from planner.survey import Bore

NEARER_MM = 0.02
"""A stated bore must come nearer than another by this much to decide."""
CHOICES_MOST = 5000
Key = tuple[int, str]
"""An item of hardware, by its index in the job, for a name may stand twice; and the name of a part."""
Choice = tuple[frozenset[int], ...]
"""The axes of each piece of hardware, in the order of the pieces."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contest:
    """Bores of a part that nothing assigns to one of several pieces of hardware."""

    part: str
    items: tuple[int, ...]
    bores: tuple[Bore, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """Whose every bore is: ``taken`` as far as it is settled, ``contests`` where it is not, ``reasons`` of guesses."""

    taken: dict[Key, tuple[Bore, ...]]
    contests: list[Contest] = field(default_factory=list)
    reasons: list[tuple[str, int, str, str]] = field(default_factory=list)
    """Part, item, what was assigned to it, and why."""


def shared_out(job: Job, wanted: Mapping[Key, tuple[Bore, ...]]) -> Shares:
    """Return which bores each piece of hardware takes in each part, no bore twice."""
    by_item = dict(enumerate(job.hardware))
    shares = Shares(taken=dict(wanted))
    _by_diameter(shares, by_item)
    while _by_partner(shares, by_item, firm=True) or _by_partner(shares, by_item, firm=False):
        pass
    copies = {part.name: part.count for part in job.parts}
    while _by_number(shares, by_item, copies) or _by_depth(shares, by_item):
        while _by_partner(shares, by_item, firm=False):
            pass
    for part, items in _contested(shares):
        bores = _in_contest(shares, part, items)
        shares.contests.append(Contest(part=part, items=items, bores=bores))
    return shares


def _contested(shares: Shares) -> list[tuple[str, tuple[int, ...]]]:
    """Return the parts with bores that several pieces take, with the pieces of each group."""
    found: list[tuple[str, tuple[int, ...]]] = []
    for part in dict.fromkeys(part for _, part in shares.taken):
        groups: list[set[int]] = []
        takers: dict[str, list[int]] = {}
        for (item, where), bores in shares.taken.items():
            for bore in bores if where == part else ():
                takers.setdefault(bore.id, []).append(item)
        for items in takers.values():
            if len(items) > 1:
                touched = [group for group in groups if group & set(items)]
                groups = [group for group in groups if group not in touched] + [set(items).union(*touched)]
        found += [(part, tuple(item for item, where in shares.taken if where == part and item in g)) for g in groups]
    return found


def _in_contest(shares: Shares, part: str, items: Iterable[int]) -> tuple[Bore, ...]:
    """Return the bores of a part that more than one of the pieces takes."""
    every = [bore for item in items for bore in shares.taken[item, part]]
    taken_n = Counter(bore.id for bore in every)
    return tuple({b.id: b for b in every if taken_n[b.id] > 1}.values())


def _by_diameter(shares: Shares, hardware: Mapping[int, Hardware]) -> None:
    """Give a bore to the piece whose stated bore is nearest to it, where one is nearer than the others."""
    for part, items in _contested(shares):
        for bore in _in_contest(shares, part, items):
            stated = {n: in_part(hardware[n], part).bore_mm for n in items if bore in shares.taken[n, part]}
            off = {n: abs(mm - bore.named_mm) for n, mm in stated.items() if mm is not None}
            if len(off) == len(stated):
                for item in (n for n, far in off.items() if far > min(off.values()) + NEARER_MM):
                    shares.taken[item, part] = tuple(b for b in shares.taken[item, part] if b != bore)


def _by_partner(shares: Shares, hardware: Mapping[int, Hardware], *, firm: bool) -> bool:
    """Assign one group of bores by the parts that the pieces join them to; return whether one was assigned.

    ``firm`` takes only what leaves one choice; else one of several that come to the same is taken as well.
    """
    open_ones = _contested(shares)
    contested = {(part, item) for part, items in open_ones for item in items}
    for part, items in open_ones:
        axes = axes_of(list({b.id: b for n in items for b in shares.taken[n, part]}.values()))
        options = [_options(shares, hardware, item, part, axes, contested) for item in items]
        if sum(option is None for option in options) > 1:
            continue
        choices = _choices(len(axes), options)
        looks = {tuple(tuple(sorted(axes[i].looks for i in mine)) for mine in choice) for choice in choices}
        if len(choices) == 1 or (choices and not firm and len(looks) == 1 and _same_fit(items, hardware)):
            why = "the axes lie as those of the part it joins"
            _assign(shares, part, items, axes, choices[0], why if len(choices) == 1 else f"{why}, and are alike")
            return True
    return False


def _options(
    shares: Shares,
    hardware: Mapping[int, Hardware],
    item: int,
    part: str,
    axes: tuple[BoreAxis, ...],
    contested: AbstractSet[tuple[str, int]],
) -> list[frozenset[int]] | None:
    """Return the sets of axes that a piece may take in a part, by its partners; None where they tell nothing.

    ``contested`` holds the parts in which others might take a piece's bores: these tell nothing of it.
    """
    mine = shares.taken[item, part]
    usable = [index for index, axis in enumerate(axes) if any(bore in mine for bore in axis.bores)]
    found: list[frozenset[int]] | None = None
    for other in hardware[item].joins:
        if other == part or (other, item) in contested or not shares.taken.get((item, other)):
            continue
        pattern = axes_of(shares.taken[item, other])
        in_place = [i for i in usable if any(meet(axes[i], axis) for axis in pattern)]
        if in_place and all(any(meet(axes[i], axis) for i in in_place) for axis in pattern):
            return [frozenset(in_place)]
        sets = [frozenset(usable[i] for i in match) for match in alike([axes[i] for i in usable], pattern)]
        if sets and (found is None or len(sets) < len(found)):
            found = sets
    return found


def _choices(axes_n: int, options: list[list[frozenset[int]] | None]) -> list[Choice]:
    """Return the ways to give every piece one of its sets, none twice; one that nothing is known of gets the rest."""
    known = [option for option in options if option is not None]
    found: list[Choice] = []
    for sets in islice(product(*known), CHOICES_MOST):
        taken = frozenset[int]().union(*sets)
        rest = frozenset(range(axes_n)) - taken
        if len(taken) != sum(len(one) for one in sets) or (len(known) < len(options) and not rest):
            continue
        following = iter(sets)
        found.append(tuple(rest if option is None else next(following) for option in options))
    most = max((sum(len(one) for one in choice) for choice in found), default=0)
    return [choice for choice in found if sum(len(one) for one in choice) == most]


def _by_number(shares: Shares, hardware: Mapping[int, Hardware], copies: Mapping[str, int]) -> bool:
    """Share axes that all look alike by the numbers stated, where these use up all of them."""
    for part, items in _contested(shares):
        axes = axes_of(list({b.id: b for n in items for b in shares.taken[n, part]}.values()))
        counts = [hardware[item].count / copies[part] for item in items]
        everywhere = all(set(axis.bores) <= set(shares.taken[n, part]) for axis in axes for n in items)
        whole = all(count >= 1 and count == int(count) for count in counts) and sum(counts) == len(axes)
        if whole and everywhere and len({axis.looks for axis in axes}) == 1 and _same_fit(items, hardware):
            ends = [int(sum(counts[:i])) for i in range(len(counts) + 1)]
            choice = tuple(frozenset(range(a, b)) for a, b in pairwise(ends))
            _assign(shares, part, items, axes, choice, "by the stated numbers, because the bores are alike")
            return True
    return False


def _by_depth(shares: Shares, hardware: Mapping[int, Hardware]) -> bool:
    """Give blind bores to pilots and through ones to what runs through, where both are among the pieces."""
    for part, items in _contested(shares):
        pilots = [n for n in items if in_part(hardware[n], part).fit == "pilot" or hardware[n].kind == "wood-screw"]
        axes = axes_of(_in_contest(shares, part, items))
        blind = frozenset(i for i, axis in enumerate(axes) if not any(b.through for b in axis.bores))
        if len(pilots) == 1 and len(items) == len(("pilot", "other")) and 0 < len(blind) < len(axes):
            through = frozenset(range(len(axes))) - blind
            choice = tuple(blind if item in pilots else through for item in items)
            _assign(shares, part, items, axes, choice, "a pilot bore is blind, the others go through")
            return True
    return False


def _same_fit(items: Iterable[int], hardware: Mapping[int, Hardware]) -> bool:
    """Return whether pieces need the same bore, so that no answer about it hangs on which of them it takes."""
    return len({(hardware[n].kind, hardware[n].diameter_mm, hardware[n].fit) for n in items}) == 1


def _assign(
    shares: Shares, part: str, items: tuple[int, ...], axes: tuple[BoreAxis, ...], choice: Choice, why: str
) -> None:
    """Give every piece its axes, and what only it takes."""
    contested = {bore.id for axis in axes for bore in axis.bores}
    for item, mine in zip(items, choice, strict=True):
        given = {bore.id for index in mine for bore in axes[index].bores}
        kept = tuple(b for b in shares.taken[item, part] if b.id in given or b.id not in contested)
        shares.taken[item, part] = kept
        shares.reasons.append((part, item, f"{len(kept)} of the bores", why))
