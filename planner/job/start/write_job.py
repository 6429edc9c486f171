"""A job as the text of a commented ``job.toml``: what was guessed says so, what is missing waits as a comment."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

from planner.job.job import Job, Part
from planner.job.measured_size import Measure, Station
from planner.job.start.start_notes import HEAD, TAIL

LIKELY_WRONG: Mapping[str, str] = {
    "count": "how many are built in?",
    "duty": "shell, load, pin, cover or soft",
    "handed": "true where it is mirrored for the other side; never with text or threads",
    "mesh_unit": "mesh files name no unit",
    "printer": "which printer prints it? fitwright keys printer says how to state your own",
    "drawn_for": "look at the drawing",
    "device_mm": "measured there",
    "padding_mm": "thickness of the foam on one side",
    "ease_mm": "room left beyond it",
    "kind": "by form alone",
    "fit": "turning, sliding, held or pilot",
    "nut": "plain or locking; take it out where a thread or an insert holds the screw",
    "drawn_mm": "gap on each side, as drawn",
    "how": "by form alone: turns, pressed, glued; take the table out where nothing goes in",
}
"""What to ask oneself of a guess, behind its value; ``kind`` of a measure has its own."""
UNWRITTEN = ("guessed", "stack_mm")
"""Written apart; and taken from the bores anew whenever the job is read."""
LISTED = (
    ("hardware", "hardware"),
    ("left_open", "open"),
    ("gaps", "gap"),
    ("cords", "cord"),
    ("straps", "strap"),
    ("joints", "joint"),
)
"""Fields of a job whose records are written as they are, and the tables that they become."""


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
    for field, table in LISTED:
        blocks += [f"\n[[{table}]]\n{_keys(_stated(record), record.guessed)}" for record in getattr(job, field)]
    blocks += [f"\n[[spool]]\n{_keys({'material': one.material, 'colour': one.colour}, ())}" for one in job.spools]
    return "".join(blocks) + TAIL.format(part=_bare(job.parts[0].name))


def _text(value: str) -> str:
    """Return a TOML basic string; JSON escapes are a subset of TOML's."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _bare(name: str) -> str:
    """Return a name as it stands between the quotes of an example in a comment."""
    return _text(name)[1:-1]


def _value(value: Any) -> str:
    """Return a value as TOML; numbers with as many digits as a mesh's measure has."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        short = f"{value:.6g}"
        return short if {".", "e", "n"} & set(short) else short + ".0"
    if isinstance(value, str):
        return _text(value)
    if is_dataclass(value):
        return "{ " + ", ".join(f"{key} = {_value(one)}" for key, one in _stated(value).items()) + " }"
    if isinstance(value, Sequence):
        return "[" + ", ".join(_value(one) for one in value) + "]"
    return str(value)


def _keys(values: Mapping[str, Any], guessed: Sequence[str]) -> str:
    """Return the lines of a table; what is guessed says so behind its value, and in the list that is read back."""
    known = [key for key in guessed if key in values]
    lines = [f"{key} = {_value(value)}{_mark(key) if key in known else ''}\n" for key, value in values.items()]
    return "".join(lines) + (f"guessed = {_value(known)}\n" if known else "")


def _mark(key: str) -> str:
    """Return the comment behind a guess."""
    return f"  # GUESS: {LIKELY_WRONG[key]}" if key in LIKELY_WRONG else "  # GUESS"


def _stated(record: Any) -> dict[str, Any]:
    """Return the fields of a record that say something, as keys of its table."""
    return {
        field.name: value
        for field in fields(record)
        if field.name not in UNWRITTEN
        and ((value := getattr(record, field.name)) != field.default or field.name in getattr(record, "guessed", ()))
        and value is not None
    }


def _job(job: Job, printer: str) -> str:
    """Return the ``[job]`` table."""
    unit = job.mesh_unit or "mm"
    guessed = (*(() if job.mesh_unit else ("mesh_unit",)), *(("printer",) if "printer" in job.guessed_keys else ()))
    keys = _keys({"mesh_unit": unit, "printer": printer}, guessed)
    code = '# recipient = "R-07"  # a code, never a name\n'
    return f'\n[job]\nname = {_text(job.name)}\n{code}{keys}material = "auto"\n'


def _size(job: Job) -> str:
    """Return the ``[size]`` table."""
    size = job.size
    values: dict[str, Any] = {} if size.percent is None else {"percent": size.percent}
    if size.side:
        values |= {"side": size.side, "drawn_for": size.drawn_for or "right"}
    none = "" if size.measures or values.get("percent") else "# percent = 100.0  # no size is stated: as drawn\n"
    return "\n[size]\n" + none + _keys(values, size.guessed if size.drawn_for else (*size.guessed, "drawn_for"))


def _measure(measure: Measure) -> str:
    """Return one ``[[size.measure]]`` table."""
    values = {key: getattr(measure, key) for key in ("name", "kind", "recipient_mm", "padding_mm", "ease_mm")}
    device, guessed = measure.device_mm, measure.guessed
    if not isinstance(device, Station):
        return "\n[[size.measure]]\n" + _keys({**values, "device_mm": device}, guessed)
    place = f"{{ part = {_text(device.part)}, station_percent = {_value(device.station_percent)} }}"
    line = f"device_mm = {place}{_mark('device_mm') if 'device_mm' in guessed else ''}\n"
    lines = "".join(f"{key} = {_value(value)}{_mark(key) if key in guessed else ''}\n" for key, value in values.items())
    return f"\n[[size.measure]]\n{lines}{line}" + (f"guessed = {_value(guessed)}\n" if guessed else "")


def _part(job: Job, part: Part, sha256: str) -> str:
    """Return one ``[[part]]`` table; a duty that nobody stated is a guess whatever it says."""
    values = {
        "name": part.name,
        "mesh": Path(os.path.relpath(part.mesh, job.path)).as_posix(),
        **({"mesh_object": part.mesh_object} if part.mesh_object else {}),
        "count": part.count,
        "duty": part.judged_duty,
        "handed": part.handed,
        "sha256": sha256,
    }
    return "\n[[part]]\n" + _keys(values, part.guessed if part.duty else (*part.guessed, "duty"))
