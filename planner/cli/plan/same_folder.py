"""A plan's folder is written only where the plan says something else than what lies there.

What a simulation tells changes a little whenever another job does: days and tenths of a chance count, no minutes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from planner.cache import holds, kept, key_of
from planner.job import program_stamp

if TYPE_CHECKING:
    from planner.output import PaperName, Written
    from planner.plan import Plan

SAME_VERSION = 3
"""Raised whenever what counts as the same changes."""
ROOM = "written"
BY_DAY = ("printed_expected", "printed_p90", "ready_expected", "ready_p90")
LEFT_OUT = ("start", "bound_min", "gap_percent", "overrun_percent")
"""Of ``clocks`` in plan.json: when it was planned, and how surely it is the best."""
TENTHS_PERCENT = 10.0


def write_changed(plan: Plan, folder: Path, paper: PaperName, ids: Mapping[int, str] | None = None) -> Written | None:
    """Write a plan into its folder; None where what lies there, untouched, comes from a plan that says the same.

    ``ids`` are those that its plates have in a ledger, by number.
    """
    from planner.output import write_whole_plan

    said = key_of(_said(plan, paper), sorted((ids or {}).items()))
    here = _listed(folder)
    if here is not None and holds(ROOM, key_of(said, here)):
        return None
    _, written = write_whole_plan(plan, folder, paper, ids)
    there = _listed(folder)
    if there is not None:
        kept(ROOM, key_of(said, there), bool, lambda: True)
    return written


def _said(plan: Plan, paper: PaperName) -> str:
    """Return a key of all that a folder hangs on."""
    from planner.output import plan_json

    sums: Any = plan_json(plan)
    clocks = sums["clocks"]
    if clocks is not None:
        clocks = {key: value for key, value in clocks.items() if key not in LEFT_OUT}
        clocks |= {key: (clocks[key] or "")[:10] for key in BY_DAY}
        # what is on a spool changes with every print; which spool feeds what, and where one ends, counts
        clocks["spools"] = [{**row, "feeds": [reel["spool"] for reel in row["feeds"]]} for row in clocks["spools"]]
        chance = clocks["deadline_kept_percent"]
        clocks["deadline_kept_percent"] = None if chance is None else round(chance / TENTHS_PERCENT)
    job, ready = plan.job, plan.stage.sized.ready
    bare = replace(job, spools=(), calendar=replace(job.calendar, start=None) if job.calendar else None)
    meshes = sorted((name, solid.sha256) for name, solid in ready.from_files[0].items())
    text = json.dumps({**sums, "clocks": clocks}, sort_keys=True, default=str)
    return key_of(SAME_VERSION, program_stamp(), paper, ready.today, bare, meshes, text)


def _listed(folder: Path) -> str | None:
    """Return a key of a folder's files by its manifest; None where one of them was changed, or there is none."""
    from planner.packing import MANIFEST, untouched_files

    try:
        text = (folder / MANIFEST).read_text(encoding="utf-8")
        names = set(json.loads(text)["files"])
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return key_of(str(folder.resolve()), text) if names <= untouched_files(folder) else None
