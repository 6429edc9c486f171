"""What a folder of meshes says by itself: duties by name, left and right twins, hardware by bore.

Everything here is a guess and is listed as one; a job file says better.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from planner.assembly.bore_ends import printed_ends
from planner.finding import Guess
from planner.job import Duty, Fit, Hardware, HardwareKind, HardwareTables, Job, Limits, Part, StockSize
from planner.survey import Bore, Survey

DUTY_WORDS: dict[Duty, tuple[str, ...]] = {
    "pin": ("pin", "axle", "rod", "dowel", "shaft", "peg"),
    "cover": ("cover", "lid", "cap", "shroud", "badge"),
    "shell": ("cuff", "shell", "socket", "housing", "case", "body"),
    "soft": ("pad", "grip", "sleeve", "bumper"),
}
"""Words in a file's name that tell a duty; common practice, no source."""
BESIDE = ("left", "right", "copy", "final", "new", "pc", "mm", "top", "bottom")
"""Words that say which one, not what."""
NEAR_BORE_MM = 0.12
"""A drawn bore this near to a usual clearance bore is probably meant for that screw."""
WHOLE_BORE_MM = 0.06
"""A drawn bore this near to a pin's own size is probably meant for that pin."""


def with_guesses(job: Job, surveys: Mapping[str, Survey]) -> Job:
    """Return the job with duties and hardware guessed from its meshes, every guess in ``notes``."""
    parts = tuple(replace(part, duty=duty_of(part.name)) if part.duty is None else part for part in job.parts)
    notes = [
        Guess(
            what=f"duty of {part.name}", value=part.duty or "load", why="by its name; load where the name says nothing"
        )
        for part in parts
    ]
    hardware, hardware_notes = hardware_of(
        parts, surveys, job.tables, job.limits, job.printer.undersize.upright_mm.value
    )
    notes += hardware_notes + twins_of(parts, surveys)
    return replace(job, parts=parts, hardware=(*job.hardware, *hardware), notes=(*job.notes, *notes))


def duty_of(name: str) -> Duty:
    """Return the duty that a name tells, load where it tells none.

    >>> duty_of("left-Cuff_v2"), duty_of("spine")
    ('shell', 'load')
    """
    words = [word for word in re.findall(r"[a-z]+", name.lower()) if len(word) > 1 and word not in BESIDE]
    last = words[-1] if words else ""  # the last word is the thing, those before it say which
    for duty, known in DUTY_WORDS.items():
        if last in known or last.removesuffix("s") in known:
            return duty
    return "load"


def hardware_of(
    parts: tuple[Part, ...], surveys: Mapping[str, Survey], tables: HardwareTables, limits: Limits, undersize_mm: float
) -> tuple[list[Hardware], list[Guess]]:
    """Group all bores by drawn diameter and propose hardware for each group that something usual fits."""
    groups: dict[tuple[float, bool], list[tuple[str, Bore]]] = defaultdict(list)
    for part in parts:
        for bore in surveys[part.name].bores:
            groups[round(bore.drawn_diameter_mm, 1), bore.through].append((part.name, bore))
    found, notes = [], []
    for (drawn, through), members in sorted(groups.items()):
        proposal = _proposed(members[0][1], through, tables, limits, undersize_mm)
        told = f"{len(members)} x {drawn:g} {'through' if through else 'blind'}"
        if proposal is None:
            notes.append(Guess(what=told, value="nothing", why="no usual screw or pin fits it: name what goes in"))
            continue
        kind, stock, fit, why = proposal
        names = tuple(sorted({name for name, _ in members}))
        name = f"{stock.label} {kind} in {drawn:g} mm"
        found.append(
            Hardware(
                name=name,
                kind=kind,
                diameter_mm=stock.diameter_mm.value,
                joins=names,
                bore_mm=members[0][1].drawn_diameter_mm,
                fit=fit,
                count=len(members),
            )
        )
        notes.append(Guess(what=told, value=f"{stock.label} {kind}?", why=why + " (in " + ", ".join(names) + ")"))
    return found, notes


def _proposed(
    bore: Bore, through: bool, tables: HardwareTables, limits: Limits, undersize_mm: float
) -> tuple[HardwareKind, StockSize, Fit, str] | None:
    """Return the hardware that a bore is usually drawn for, with the reason."""
    if not through:
        return _serving(bore, "wood-screw", "pilot", tables, limits, undersize_mm)
    usual = [(stock, b) for stock in tables.machine_screws for b in stock.bores_mm]
    stock, near = min(usual, key=lambda pair: abs(pair[1].value - bore.drawn_diameter_mm))
    ends = printed_ends(stock.diameter_mm.value, "machine-screw", "sliding", limits, tables)
    fits = ends is not None and bore.diameter_mm - undersize_mm <= ends[1]
    if fits and abs(near.value - bore.drawn_diameter_mm) <= NEAR_BORE_MM:
        return "machine-screw", stock, "sliding", f"{near.value:g} mm is a usual clearance bore: ISO 273"
    for stock in tables.dowel_pins:
        if abs(stock.diameter_mm.value - bore.drawn_diameter_mm) <= WHOLE_BORE_MM:
            return "dowel-pin", stock, "sliding", "drawn at the size of a pin or rod"
    return _serving(bore, "machine-screw", "sliding", tables, limits, undersize_mm)


def _serving(
    bore: Bore, kind: HardwareKind, fit: Fit, tables: HardwareTables, limits: Limits, undersize_mm: float
) -> tuple[HardwareKind, StockSize, Fit, str] | None:
    """Return the stock size whose printed range takes the bore as it prints at the drawn size."""
    printed = bore.diameter_mm - undersize_mm
    for stock in tables.sizes(kind):
        ends = printed_ends(stock.diameter_mm.value, kind, fit, limits, tables)
        if ends is not None and ends[0] <= printed <= ends[1]:
            return (
                kind,
                stock,
                fit,
                f"it prints at {printed:.2f} mm, and that {fit} fit takes {ends[0]:.2f} to {ends[1]:.2f}",
            )
    return None


def twins_of(parts: tuple[Part, ...], surveys: Mapping[str, Survey]) -> list[Guess]:
    """Name the pairs that look like mirror images or copies of each other."""
    notes = []
    for index, one in enumerate(parts):
        for other in parts[index + 1 :]:
            a, b = surveys[one.name], surveys[other.name]
            alike = a.triangles_n == b.triangles_n and np.isclose(a.volume_mm3, b.volume_mm3, rtol=1e-3)
            if alike and np.allclose(np.sort(a.size_mm), np.sort(b.size_mm), rtol=1e-3):
                told = "copies or left and right twins: same size, volume and number of triangles"
                notes.append(Guess(what=f"{one.name} and {other.name}", value="twins?", why=told))
    return notes
