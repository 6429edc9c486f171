"""The search: for every finding that does not pass, ways in order of effort, until one is proved."""

from __future__ import annotations

from dataclasses import replace

from planner.errors import FitwrightError
from planner.job import CureKind, kind_of, with_edits
from planner.remedy.candidate import Candidate, Way
from planner.remedy.group import Group, groups_of
from planner.remedy.remedy import Refused, Remedies, Remedy, Told, told
from planner.remedy.standing import Again, Stand, decided, spoiled
from planner.remedy.ways.by_hand import bushed, drilled, reamed, without_work
from planner.remedy.ways.other_hardware import other_hardware
from planner.remedy.ways.other_print import narrower_lines, other_material, other_pose, other_printer
from planner.remedy.ways.other_size import other_size
from planner.remedy.ways.other_webbing import other_webbing

WAYS: dict[CureKind, Way] = {
    "undo": without_work,
    "drill": drilled,
    "ream": reamed,
    "hardware": other_hardware,
    "webbing": other_webbing,
    "bush": bushed,
    "pose": other_pose,
    "settings": narrower_lines,
    "material": other_material,
    "printer": other_printer,
    "size": other_size,
}
"""What tries each kind of cure."""
REFUSED_MOST = 6
"""So many ways that failed are kept with a remedy."""


def remedies_of(stand: Stand, again: Again) -> Remedies:
    """Return the remedies of a job, each of them proved, and what none was found for.

    ``again`` gives how a changed job of the same meshes stands.
    """
    found: list[Remedy] = []
    unsettled: list[tuple[Told, tuple[Refused, ...]]] = []
    for group in groups_of(stand):
        for one in _tried(stand, group, again):
            if isinstance(one, Remedy):
                found.append(one)
            else:
                unsettled += [(told(finding), one[1]) for finding in one[0].findings]
    return Remedies(found=_numbered(found), unsettled=tuple(unsettled))


Nothing = tuple[Group, tuple[Refused, ...]]
"""A group that nothing was found for, and what was tried."""


def _tried(stand: Stand, group: Group, again: Again) -> list[Remedy | Nothing]:
    """Return the remedies of a group: one for all of it by the nearest way, else one for each finding by itself.

    What changes the whole device is only tried once the ways that leave it alone have failed for single findings, too.
    """
    local = [kind for kind in group.kind.cures if kind not in DEVICE]
    whole = [kind for kind in group.kind.cures if kind in DEVICE]
    refused: list[Refused] = []
    for kinds, groups in ((local, (group,)), (local, group.alone() if len(group.keys) > 1 else ()), (whole, (group,))):
        remedies: list[Remedy | Nothing] = []
        failed: list[Refused] = []
        for one in groups:
            made, why = _first(stand, one, kinds, again, tuple(refused))
            failed += why
            if made is None:
                break
            remedies.append(made)
        if remedies and len(remedies) == len(groups):
            return remedies
        refused += [each for each in failed if each not in refused]
    return [(group, tuple(refused))]


POSING = ("pose", "settings", "material", "printer")
"""Kinds after which parts may be laid another way."""
DEVICE = ("material", "printer", "size", "settings")
"""Kinds that change the whole device."""


def _first(
    stand: Stand, group: Group, kinds: list[CureKind], again: Again, before: tuple[Refused, ...]
) -> tuple[Remedy | None, list[Refused]]:
    """Return the first remedy of some kinds that is proved, and those that were refused before it."""
    refused: list[Refused] = []
    for kind in kinds:
        for candidate in WAYS[kind](stand, group, again):
            made = _proved(stand, group, candidate, again)
            if isinstance(made, Remedy):
                nearer = tuple(dict.fromkeys((*before, *refused)))[-REFUSED_MOST:]
                return replace(made, refused=nearer), refused
            refused.append(made)
    return None, refused


def _proved(stand: Stand, group: Group, candidate: Candidate, again: Again) -> Remedy | Refused:
    """Return a candidate as a remedy where its edits settle the group and spoil nothing, else why not."""
    if candidate.why_not:
        return Refused(text=candidate.text, why=candidate.why_not)
    try:
        changed = with_edits(stand.job, candidate.does)
        after = again(changed, posed=False)
        why = _why_not(stand, group, after)
        if not why and candidate.kind in POSING:
            after = again(changed)
            why = _why_not(stand, group, after)
    except FitwrightError as problem:
        return Refused(text=candidate.text, why=f"{problem.where}: {problem.wrong}")
    if why:
        return Refused(text=candidate.text, why=why)
    return Remedy(
        n=0,
        kind="drill" if candidate.kind == "undo" else candidate.kind,
        text=candidate.text,
        part=candidate.part,
        does=candidate.does,
        costs=candidate.costs,
        leaves_verdict=after.verdict,
        refused=(),
        settles=tuple(told(finding) for finding in group.findings),
    )


def _why_not(stand: Stand, group: Group, after: Stand) -> str:
    """Return why a change is no remedy: what it spoils, or does not settle; empty where it is one."""
    for finding in spoiled(stand, after):
        if kind_of(finding.rule).gives == "wall left" and finding.measured is not None and finding.limit is not None:
            return (
                f"it leaves {finding.measured:.2f} mm beside {finding.feature} in {finding.part}, "
                f"{finding.limit:.2f} mm needed"
            )
        return finding.why
    for key, was in zip(group.keys, group.findings, strict=True):
        now = after.worst_of(key)
        if now is None:
            return f"{key[2]} of {key[1]} would not be judged any more"
        if not now.verdict.passes or (was.verdict.passes and not decided(after.job, key, now)):
            return now.why
    return ""


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
