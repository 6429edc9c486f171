"""Other print settings: the smallest change that cures a settings rule, or lines that fit a wall."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from planner.finding import Finding
from planner.job import Edit, Job
from planner.phrases import listed
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.rule_answers import Again, Stand
from planner.remedy.ways.own_height import HEIGHT, changes_at_height, own_height_of, parts_at
from planner.remedy.ways.stronger_part import more_solid
from planner.rules import Change, ThinWallRule, WithoutLayers, bare, setting_remedy, smallest_change
from planner.scale import Scale

LINE_STEP_MM = 0.01
LINE_LEAST_SHARE = 1.0
"""A line is not laid narrower than the nozzle; common practice, no source. The settings rules judge it once more."""


def other_settings(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the smallest change of settings that cures a group; where a part breaks, a more solid print."""
    if group.kind.gives == "strength":
        yield from more_solid(stand, group)
    elif group.kind.family != "settings":
        yield from _thinner_layers(stand, group)
        yield from _narrower_lines(stand, group)
    elif stand.settings is not None:
        finding, settings = group.findings[0], stand.job.settings
        height = own_height_of(stand.job, finding)
        if group.kind.setting_for(finding.feature) == "support":
            edit = Edit(table="settings", put={"support": "where-needed"})
            yield Candidate(kind="settings", text='set support = "where-needed"', does=(edit,))
            return
        if height is not None:
            changes = changes_at_height(stand.job, height, lambda job: asked_with(stand, job), finding)
            text, does = told_at_height(stand.job, height, changes)
        else:
            changes = setting_remedy(
                settings, lambda other: asked_with(stand, replace(stand.job, settings=other)), finding
            )
            text, does = told(changes), edits_of(changes)
        why = "" if does else "no setting helps without breaking another rule"
        yield Candidate(kind="settings", text=text or "change the settings", does=does, why_not=why)


def asked_with(stand: Stand, job: Job) -> Sequence[Finding]:
    """Return what the settings rules say of a changed job with the same meshes, in the same poses and material."""
    asked = stand.settings
    if asked is None:
        return ()
    material = job.material or asked.material
    other = WithoutLayers(job=job, material=material, surveys=asked.surveys, downs=asked.downs)
    without = other.at(Scale(stand.percent).factor).findings.values()
    return (*without, *(stand.on_layers(job) if stand.on_layers else ()))


def suiting(stand: Stand, job: Job) -> tuple[Change, ...]:
    """Return what settings a changed job asks for beside, such as another fan for another material."""
    changes, _ = smallest_change(job.settings, lambda other: asked_with(stand, replace(job, settings=other)))
    return changes


def also(text: str, changes: Sequence[Change]) -> str:
    """Return an order with the settings that go with it."""
    return f"{text}; {told(changes)}" if changes else text


def told_at_height(job: Job, height_mm: float, changes: Sequence[Change]) -> tuple[str, tuple[Edit, ...]]:
    """Return changes for the parts that have a layer height of their own, in words and as edits.

    Their layer height stands in their own tables, all other settings are the whole job's.
    """
    own = next((change.after for change in changes if change.key == HEIGHT), None)
    rest = [change for change in changes if change.key != HEIGHT]
    if own is None:
        return told(rest), edits_of(rest)
    parts = parts_at(job, height_mm)
    text = f"set {HEIGHT} = {own:.6g} (now {height_mm:g}) of {listed(parts)}"
    edits = tuple(Edit(table="part", name=part, put={HEIGHT: own}) for part in parts)
    return also(text, rest), (*edits, *edits_of(rest))


def told(changes: Sequence[Change]) -> str:
    """Say changes as an order.

    >>> told([Change(key="nozzle_c", before=None, after=225.0, rule="nozzle.range")])
    'set nozzle_c = 225'
    """
    each = [
        f"{change.key} = {change.after:.6g}" + ("" if change.before is None else f" (now {change.before:.6g})")
        for change in changes
    ]
    return f"set {listed(each)}" if each else ""


def edits_of(changes: Sequence[Change]) -> tuple[Edit, ...]:
    """Return the edit that writes changes into a job."""
    put: Mapping[str, float | int] = {
        change.key: round(change.after) if change.key.endswith("_n") else change.after for change in changes
    }
    return (Edit(table="settings", put=put),) if put else ()


def _narrower_lines(stand: Stand, group: Group) -> Iterator[Candidate]:
    """Yield lines just narrow enough that as many as are needed lie side by side in what is there."""
    width, narrow = stand.job.settings.line_width_mm.value, line_that_fits(stand, group)
    if narrow is None:
        return
    text = f"print with lines of {narrow:.2f} mm instead of {width:g} mm"
    nozzle = stand.job.printer.nozzle_mm.value
    why = "" if narrow >= LINE_LEAST_SHARE * nozzle else f"the nozzle of {nozzle:g} mm lays none so narrow"
    edit = Edit(table="settings", put={"line_width_mm": narrow})
    yield Candidate(kind="settings", text=text, does=(edit,), why_not=why)


def _thinner_layers(stand: Stand, group: Group) -> Iterator[Candidate]:
    """Yield layers just thin enough that as many as are needed lie in walls that lie flat, for that part alone."""
    fits = [rule.layer_that_fits_mm(stand.percent / 100.0) for rule in _thin_walls(stand, group)]
    thin = [one for one in fits if one is not None]
    if not thin or len(thin) < len(fits):
        return
    now_mm = stand.job.own_height_mm(group.part) or stand.job.settings.layer_height_mm.value
    height_mm = _down(min(thin))
    if LINE_STEP_MM <= height_mm < now_mm:
        text = f"print {group.part} with layers of {height_mm:g} mm instead of {now_mm:g} mm"
        edit = Edit(table="part", name=group.part, put={HEIGHT: height_mm})
        yield Candidate(kind="settings", text=text, part=group.part, does=(edit,))


def line_that_fits(stand: Stand, group: Group) -> float | None:
    """Return the width of which as many lines as are needed lie side by side in what is there; None without numbers.

    A wall that lies flat is held against layers: the lines that it takes are told by its rule.
    """
    told_mm = [rule.line_that_fits_mm(stand.percent / 100.0) for rule in _thin_walls(stand, group)]
    wide = [one for one in told_mm if one is not None]
    if wide:
        return _down(min(wide))
    shares = [f.measured / f.limit for f in group.findings if f.measured is not None and f.limit]
    return _down(stand.job.settings.line_width_mm.value * min(shares)) if shares else None


def _thin_walls(stand: Stand, group: Group) -> list[ThinWallRule]:
    """Return the rules of thin walls that a group speaks of, out of what is wrapped about them."""
    mine = (rule for rule in stand.rules if (rule.rule, rule.part, rule.feature) in group.keys)
    inner = (bare(rule, stand.percent / 100.0) for rule in mine)
    return [rule for rule in inner if isinstance(rule, ThinWallRule)]


def _down(value_mm: float) -> float:
    """Return a length rounded down to a step that settings are given in."""
    return round(math.floor(value_mm / LINE_STEP_MM + 1e-9) * LINE_STEP_MM, 2)
