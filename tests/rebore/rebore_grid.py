"""One part at one scale, re-bored as the command does it, and what a reader of the file finds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import numpy as np
import trimesh

from planner.job import Job, with_changes
from planner.mesh import read_solid, write_stl
from planner.plan import prepare, prepare_rebored, what_widens
from planner.rebore import Change
from planner.rules import check
from planner.size import Interval, window
from planner.survey import Survey, survey

TODAY = date(2026, 12, 1)
SCALES_PERCENT = (70.0, 82.0, 94.0, 103.0, 117.0, 130.0, 140.0)
SIZE_MM = 0.02
"""A bore is drawn within this of what was announced."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What is wrong with one part at one scale; nothing where all promises are kept."""

    percent: float
    wrong: tuple[str, ...]
    changed_n: int
    kept: tuple[str, ...]
    passes: bool
    promises: tuple[Interval, ...]
    """Where ``window``, asked at this size, says that re-boring works."""


def tried(job: Job, percent: float, file: Path, *, agree: bool = True) -> Cell:
    """Re-bore a job of one part, write and read it as others do, and tell every promise that is broken.

    ``agree`` compares with what ``window`` says of this size, which takes most of the time.
    """
    before = prepare(with_changes(job, percent=percent), TODAY)
    result, after = prepare_rebored(before)
    write_stl(file, [result.solids["a"]])
    wrong = [*_open(file), *_unseen(result.changes, before.surveys["a"], survey(read_solid(file)), percent / 100.0)]
    checked = check(after.bound, 100.0)
    passes = checked.verdict.passes
    promises: tuple[Interval, ...] = ()
    if agree:
        as_is = any(i.holds(percent) for i in window(before.bound.rules, percent).workable.intervals)
        promises = tuple(step.interval for step in what_widens(before, prove=True) if step.recut)
        promised = as_is or any(interval.holds(percent) for interval in promises)
        if promised != passes:
            why = "; ".join(f.why for f in checked.findings if not f.verdict.passes)
            wrong.append(f"window says {promised}, rebore {passes}: {why}")
    kept = tuple(change.kept for change in result.changes if change.kept)
    changed_n = len(result.changes) - len(kept)
    return Cell(percent=percent, wrong=tuple(wrong), changed_n=changed_n, kept=kept, passes=passes, promises=promises)


def broken(cells: Sequence[Cell]) -> list[str]:
    """Return which promise that was made at one size is not kept at another."""
    return [
        f"asked at {asked.percent:g} %, window promises {cell.percent:g} %, where rebore fails"
        for asked in cells
        for cell in cells
        if not cell.passes and any(interval.holds(cell.percent) for interval in asked.promises)
    ]


def _open(file: Path) -> list[str]:
    """Return how a file fails for another reader, which merges equal corners (trimesh, its usual loading)."""
    mesh = trimesh.load_mesh(file)
    told = {"not watertight": mesh.is_watertight, "wound two ways": mesh.is_winding_consistent}
    told |= {"no volume": mesh.is_volume, "facets without area": bool(mesh.area_faces.min() > 0.0)}
    return [wrong for wrong, good in told.items() if not good]


def _unseen(changes: tuple[Change, ...], drawn: Survey, again: Survey, s: float) -> list[str]:
    """Return the target bores that the file's own survey does not find for certain, as wide as announced."""
    wrong = [] if again.sound else [f"not sound: {again.faults}"]
    drawn_by_id = {bore.id: bore for bore in drawn.bores}
    for change in changes:
        if change.kind != "bore":
            continue
        bore = drawn_by_id[change.feature]
        middle, axis = np.array(bore.centre_mm) * s, np.array(bore.axis)
        sizes = []
        for other in again.bores:
            away = np.array(other.centre_mm) - middle
            off = float(np.linalg.norm(away - (away @ axis) * axis))
            reach = (other.depth_mm + bore.depth_mm * s) / 2
            if off < 0.05 and abs(away @ axis) < reach and abs(axis @ np.array(other.axis)) > 0.9999:
                sizes.append(other.drawn_diameter_mm)
        if not any(abs(size - change.after_mm) < SIZE_MM for size in sizes):
            what = "as it was" if change.kept else "cut"
            wrong.append(f"{bore.id} {what} {change.after_mm:.2f}, found {[round(size, 3) for size in sizes]}")
    return wrong
