"""Another nozzle: a finer one for a thin wall, or one that suits the layers and lines that are set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.job import Edit, with_edits
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Stand
from planner.remedy.ways.other_settings import LINE_LEAST_SHARE, also, edits_of, line_that_fits, suiting
from planner.sourced import stated

NOZZLES_MM = (0.8, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2)
"""Sizes that nozzles are sold in; common practice, no source."""
CHANGE_MIN = 15.0
"""Heating, changing the nozzle and setting its height anew; common practice, no source."""


def other_nozzle(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield nozzles, that nearest in size first, each with the settings that it asks for."""
    now = stand.job.printer.nozzle_mm.value
    fits = None if group.kind.family == "settings" else line_that_fits(stand, group)
    for nozzle in sorted(NOZZLES_MM, key=lambda each: abs(each - now)):
        if abs(nozzle - now) < 1e-6 or (fits is not None and nozzle > now):
            continue
        text = f"fit a nozzle of {nozzle:g} mm instead of {now:g} mm"
        if fits is not None and fits < LINE_LEAST_SHARE * nozzle:
            why = f"it lays no lines of {fits:.2f} mm"
            yield Candidate(kind="nozzle", text=text, why_not=why)
        else:
            yield _fitted(stand, nozzle, fits, text)


def _fitted(stand: Stand, nozzle_mm: float, line_mm: float | None, text: str) -> Candidate:
    """Return the candidate of one nozzle: lines of a width where that is given, and what the other rules then ask."""
    edits = [Edit(table="job", put={"nozzle_mm": nozzle_mm})]
    if line_mm is not None:
        edits.append(Edit(table="settings", put={"line_width_mm": line_mm}))
        text += f" and print with lines of {line_mm:g} mm"
    if with_edits(stand.job, edits).printer.name != stand.job.printer.name:
        return Candidate(kind="nozzle", text=text, why_not="this printer is only tried: name it in the job first")
    printer, settings = replace(stand.job.printer, nozzle_mm=stated(nozzle_mm)), stand.job.settings
    if line_mm is not None:
        settings = replace(settings, line_width_mm=stated(line_mm))
    job = replace(stand.job, printer=printer, settings=settings)
    changes = suiting(stand, job)
    return Candidate(
        kind="nozzle",
        text=also(text, changes),
        does=(*edits, *edits_of(changes)),
        costs=Costs(minutes_min=CHANGE_MIN, money=None),
    )
