"""The search: for every finding that does not pass, ways in order of effort, until one is proved."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from planner.finding import Finding, Verdict
from planner.job import CureKind
from planner.remedy.candidate import Way
from planner.remedy.group import Group, groups_of
from planner.remedy.remedy import Refused, Remedies, Remedy, Told, told
from planner.remedy.rule_answers import Again, Stand
from planner.remedy.trials import Trials, may_lie_otherwise, of_rule, proved, why_not
from planner.remedy.ways.by_hand import bushed, drilled, without_work
from planner.remedy.ways.on_mates import reamed, sanded
from planner.remedy.ways.other_hardware import other_hardware
from planner.remedy.ways.other_movement import less_needed
from planner.remedy.ways.other_nozzle import other_nozzle
from planner.remedy.ways.other_print import other_material, other_pose, other_printer
from planner.remedy.ways.other_settings import other_settings
from planner.remedy.ways.other_size import other_size
from planner.remedy.ways.other_webbing import other_webbing
from planner.remedy.ways.own_size import kept_as_drawn
from planner.remedy.ways.recut_mesh import in_two, rebored_part

WAYS: dict[CureKind, Way] = {
    "undo": without_work,
    "drill": drilled,
    "ream": reamed,
    "sand": sanded,
    "hardware": other_hardware,
    "webbing": other_webbing,
    "bush": bushed,
    "rebore": rebored_part,
    "pose": other_pose,
    "settings": other_settings,
    "material": other_material,
    "printer": other_printer,
    "nozzle": other_nozzle,
    "size": other_size,
    "keep": kept_as_drawn,
    "split": in_two,
    "needs": less_needed,
}
"""What tries each kind of cure."""
REFUSED_MOST = 6
"""So many ways that failed are kept with a remedy."""


def remedies_of(stand: Stand, again: Again, about: Collection[Told] | None = None) -> Remedies:
    """Return the remedies of a job, each of them proved, and what none was found for.

    ``again`` gives how a changed job of the same meshes stands; ``about`` leaves out all but some findings.
    """
    trials, found = Trials(stand, again), list[Remedy]()
    left: list[tuple[Group, tuple[Refused, ...]]] = []
    for group in groups_of(stand, about):
        if group.kind.family == "settings":  # one change of settings may do for many rules
            found, rest, refused = _of_settings(trials, group, found)
        else:
            found, rest, refused = _tried(trials, group, found)
        left += [] if rest is None else [(rest, refused)]
    unsettled: list[tuple[Told, tuple[Refused, ...]]] = []
    for group, refused in left:
        k = _settled_by(trials, group, found)  # what another group needs may settle this one, too
        if k is None:
            unsettled += [(told(finding), refused) for finding in group.findings]
        else:
            found[k] = _settling(found[k], group)
    return Remedies(found=_numbered(found), unsettled=tuple(unsettled))


def _of_settings(
    trials: Trials, group: Group, found: list[Remedy]
) -> tuple[list[Remedy], Group | None, tuple[Refused, ...]]:
    """Return the remedies found with one for a settings rule, what is left of that, and what was refused.

    One that was found already is taken where it does; and one that does for the rules of another takes its place.
    """
    k = _settled_by(trials, group, found)
    if k is not None:
        return [*found[:k], _settling(found[k], group), *found[k + 1 :]], None, ()
    return _tried(trials, group, found)


def _instead(trials: Trials, found: Sequence[Remedy], new: Remedy) -> list[Remedy]:
    """Return the remedies found with one more, which takes the place of those of its kind that it does for.

    Two that change the whole device in the same way, as to two sizes of nozzle, cannot both be done.
    """
    if new.kind not in DEVICE:
        return [*found, new]
    after = trials.after(new.does, posed=True)
    kept, settles = [], new.settles
    for old in found:
        if old.kind == new.kind and old.does != new.does and _does_for(trials, old, after):
            settles = (*settles, *old.settles)
        else:
            kept.append(old)
    return [*kept, replace(new, settles=settles)]


def _does_for(trials: Trials, old: Remedy, after: Stand) -> bool:
    """Return whether all that a remedy settles goes after another change."""
    mine = {told(f): key for key, each in trials.stand.answers.items() for f in each}
    keys = [mine[one] for one in old.settles if one in mine]
    return all((now := after.worst_of(key) or of_rule(after, key)) and now.verdict is Verdict.GO for key in keys)


def _settled_by(
    trials: Trials, group: Group, found: Sequence[Remedy], kinds: Collection[CureKind] | None = None
) -> int | None:
    """Return which of some remedies, or of those of some kinds, settles a group as well; None where none does."""
    for k, remedy in enumerate(found):
        if kinds is not None and remedy.kind not in kinds:
            continue
        if not why_not(trials.stand, group, trials.after(remedy.does, posed=may_lie_otherwise(trials, remedy.kind))):
            return k
    return None


def _settling(remedy: Remedy, group: Group) -> Remedy:
    """Return a remedy that settles a group as well."""
    return replace(remedy, settles=(*remedy.settles, *(told(finding) for finding in group.findings)))


DEVICE: tuple[CureKind, ...] = ("material", "printer", "nozzle", "size", "settings", "split", "needs")
"""Kinds that change the whole device, or how many parts it has."""


BUILT: dict[str, CureKind] = {
    "drill": "drill",
    "ream": "ream",
    "sand": "sand",
    "file": "sand",
    "bush": "bush",
    "stock": "hardware",
    "webbing": "webbing",
}
"""The way that does what the bag and the drill list say already, by the kind of work: it is tried first."""


def _tried(
    trials: Trials, group: Group, found: Sequence[Remedy]
) -> tuple[list[Remedy], Group | None, tuple[Refused, ...]]:
    """Return the remedies found with those of a group, what of it is left without one, and what was refused.

    One remedy for all of it is best, then one for each finding by itself; what changes the whole device is only tried
    for what is left then, first what another group needs in any case.
    """
    built = {"undo", *(BUILT[finding.work.kind] for finding in group.findings if finding.work)}
    local = sorted((kind for kind in group.kind.cures if kind not in DEVICE), key=lambda kind: kind not in built)
    whole = [kind for kind in group.kind.cures if kind in DEVICE]
    made, refused = _first(trials, group, local, ())
    if made is not None:
        return _instead(trials, found, made), None, ()
    remedies = list(found)
    rest = list(group.alone())
    if len(rest) > 1:
        for one in tuple(rest):
            made, why = _first(trials, one, local, refused)
            if made is None:
                refused = tuple(dict.fromkeys((*refused, *why)))
            else:
                remedies.append(made)
                rest.remove(one)
    if not rest or (local and all(_by_hand(group, f) for one in rest for f in one.findings)):
        return remedies, None, ()  # what a hand does is no reason to change the whole device
    left = group.only([one.keys[0] for one in rest])
    k = _settled_by(trials, left, remedies, DEVICE)
    if k is not None:
        return [*remedies[:k], _settling(remedies[k], left), *remedies[k + 1 :]], None, ()
    made, why = _first(trials, left, whole, refused)
    if made is not None:
        return _instead(trials, remedies, made), None, ()
    return remedies, left, tuple(dict.fromkeys((*refused, *why)))


def _by_hand(group: Group, finding: Finding) -> bool:
    """Return whether a finding passes with what its own words tell a hand to do, as to file the flats of a pocket.

    What the words of a settings rule tell is to be set.
    """
    told = finding.work or (finding.remedy and group.kind.family != "settings")
    return finding.verdict is Verdict.GO_WITH_WORK and bool(told)


def _first(
    trials: Trials, group: Group, kinds: Sequence[CureKind], before: tuple[Refused, ...]
) -> tuple[Remedy | None, tuple[Refused, ...]]:
    """Return the first remedy of some kinds that is proved, and those that were refused before it."""
    refused: list[Refused] = []
    for kind in kinds:
        for candidate in WAYS[kind](trials.stand, group, trials.again):
            made = proved(trials, group, candidate)
            if isinstance(made, Remedy):
                nearer = tuple(dict.fromkeys((*before, *refused)))[-REFUSED_MOST:]
                return replace(made, refused=nearer), tuple(refused)
            refused.append(made)
    return None, tuple(refused)


def _both(one: Remedy, other: Remedy) -> Remedy:
    """Return two remedies that do the same as one, with the nearer ways that failed for either."""
    refused = tuple(dict.fromkeys((*one.refused, *other.refused)))[:REFUSED_MOST]
    return replace(one, refused=refused, settles=(*one.settles, *other.settles))


def _numbered(found: list[Remedy]) -> tuple[Remedy, ...]:
    """Return remedies with their numbers; those that do the same are one that settles more."""
    merged: dict[str, Remedy] = {}
    for remedy in found:
        key = repr(remedy.does)
        first = merged.get(key)
        merged[key] = remedy if first is None else _both(first, remedy)
    return tuple(replace(remedy, n=n) for n, remedy in enumerate(merged.values(), 1))
