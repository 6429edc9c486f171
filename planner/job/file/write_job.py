"""A job as the text of a commented ``job.toml``: what was guessed says so, what is missing waits as a comment."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path

from planner.job.bought import Hardware
from planner.job.job import Job, Part
from planner.job.measured_size import Measure, Station

HEAD = """\
# {name}: a job for fitwright, written from the meshes in this folder.
# Nobody stated what is marked GUESS: read each, correct it, and delete the mark. Lengths are mm, scale is a percent
# of the drawn size. fitwright keys explains every key. Then: fitwright check job.toml
"""
TAIL = """
# --- what the meshes cannot show: delete the # and fill in ----------------------
# [[cord]]
# name = "pull cord"
# part = "{part}"
# diameter_mm = 1.0
# channel_mm = 2.0
# path_mm = 200.0
# [[strap]]
# name = "strap"
# part = "{part}"
# webbing_mm = 25.0
# slot_mm = 26.0
# around_mm = 190.0
# [[padding]]
# part = "{part}"
# thickness_mm = 3.0
# outline = "pad.svg"  # drawn in mm at 100 %; or area_mm2 = 9000.0
# [[joint]]  # parts that meet without hardware: screwed, pressed, slid, snapped, glued, tied, strapped
# between = ["{part}", "another part"]
# how = "pressed"
# [use]
# recipient_age_years = 9
# kept = ["house"]
# load_n = 40.0
# [plan]
# start = 2030-01-01T17:30:00
# attended = ["Mon-Fri 17:30-22:30", "Sat-Sun 09:00-22:00"]
"""


def job_text(job: Job, sha256: Mapping[str, str], printer: str) -> str:
    """Return the text of a job file that says what ``job`` says.

    Parameters
    ----------
    sha256
        Of every part's mesh file, by part name.
    printer
        Name of a shipped profile, or a path, for ``[job] printer``.
    """
    blocks = [HEAD.format(name=job.name), _job(job, printer), _size(job)]
    blocks += [_measure(measure) for measure in job.size.measures]
    blocks += [_part(job, part, sha256[part.name]) for part in job.parts]
    blocks += [_hardware(hardware) for hardware in job.hardware]
    blocks += [
        f"\n[[spool]]\nmaterial = {_text(spool.material)}\ncolour = {_text(spool.colour)}\n" for spool in job.spools
    ]
    notes = "".join(f"# {note.what}: {note.value} ({note.why})\n" for note in job.notes)
    return (
        "".join(blocks)
        + ("\n# --- all guesses, with their reasons ---\n" + notes if notes else "")
        + TAIL.format(part=job.parts[0].name)
    )


def _text(value: str) -> str:
    """Return a TOML basic string; JSON escapes are a subset of TOML's."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _job(job: Job, printer: str) -> str:
    """Return the ``[job]`` table."""
    unit = (
        f"mesh_unit = {_text(job.mesh_unit)}\n"
        if job.mesh_unit
        else 'mesh_unit = "mm"  # GUESS: mesh files name no unit\n'
    )
    code = '# recipient = "R-07"  # a code, never a name\n'
    return f'\n[job]\nname = {_text(job.name)}\n{code}{unit}printer = {_text(printer)}\nmaterial = "auto"\n'


def _size(job: Job) -> str:
    """Return the ``[size]`` table."""
    size = job.size
    lines = ["\n[size]\n"]
    if size.percent is not None:
        lines.append(f"percent = {size.percent}\n")
    elif not size.measures:
        lines.append("# percent = 100.0  # GUESS: no size is stated, so the drawn size is taken\n")
    if size.side:
        lines.append(f"side = {_text(size.side)}\n")
        drawn = size.drawn_for or "right"
        lines.append(f"drawn_for = {_text(drawn)}" + ("\n" if size.drawn_for else "  # GUESS: look at the drawing\n"))
    return "".join(lines)


def _measure(measure: Measure) -> str:
    """Return one ``[[size.measure]]`` table."""
    device = measure.device_mm
    told = (
        f"{{ part = {_text(device.part)}, station_percent = {device.station_percent} }}  # GUESS: measured there\n"
        if isinstance(device, Station)
        else f"{device}\n"
    )
    return (
        f"\n[[size.measure]]\nname = {_text(measure.name)}\nkind = {_text(measure.kind)}\n"
        f"recipient_mm = {measure.recipient_mm}\ndevice_mm = {told}"
        f"padding_mm = {measure.padding_mm}\nease_mm = {measure.ease_mm}\n"
    )


def _part(job: Job, part: Part, sha256: str) -> str:
    """Return one ``[[part]]`` table."""
    mesh = Path(os.path.relpath(part.mesh, job.path)).as_posix()
    duty = f"duty = {_text(part.judged_duty)}  # GUESS: shell, load, pin, cover or soft\n"
    return (
        f"\n[[part]]\nname = {_text(part.name)}\nmesh = {_text(mesh)}\n"
        f"count = {part.count}  # GUESS: how many are built in?\n"
        f"{duty}handed = false  # GUESS: true where it is mirrored for the other side\nsha256 = {_text(sha256)}\n"
    )


def _hardware(hardware: Hardware) -> str:
    """Return one ``[[hardware]]`` table."""
    joins = ", ".join(_text(name) for name in hardware.joins)
    return (
        f"\n[[hardware]]  # GUESS: proposed from the bores alone\nname = {_text(hardware.name)}\n"
        f"kind = {_text(hardware.kind)}\ndiameter_mm = {hardware.diameter_mm:g}\n"
        f"bore_mm = {hardware.bore_mm or hardware.diameter_mm:.3f}\nfit = {_text(hardware.fit or 'sliding')}\n"
        f"joins = [{joins}]\ncount = {hardware.count}\n"
    )
