"""The ``[[part]]`` tables of a job file."""

from __future__ import annotations

import math
from collections.abc import Iterable
from pathlib import Path
from typing import get_args

from planner.errors import JobError, nearest
from planner.finding import Vec3
from planner.job.file.table import Table
from planner.job.file.toml_file import is_there
from planner.job.job import MESH_UNITS, Duty, Part, PartScale
from planner.job.profiles.profile_file import SETTINGS_RANGES
from planner.job.start.folder_job import MESH_ENDINGS

DUTIES: tuple[Duty, ...] = get_args(Duty)
SCALE_MOST = 1000.0
NAME_MOST = 255
"""Letters of a file's name that file systems take; common practice, no source."""


def read_part(table: Table, base: Path) -> Part:
    """Read one part; its mesh file must exist."""
    name = table.text("name")
    table.where = f"{table.where} '{name}'"
    rebore = table.flag("rebore", default=False)
    if rebore and isinstance(table.raw.get("scale"), list):
        table.refuse("rebore", "a part that is scaled unevenly cannot be re-bored", "write one percent for its scale")
    part = Part(
        name=name,
        mesh=mesh_path(table, base),
        mesh_object=table.text("mesh_object", "", empty=True),
        count=table.count("count", 1),
        spares=table.count("spares", 0, low=0),
        handed=table.flag("handed", default=False),
        scale_percent=_scale(table),
        duty=table.word("duty", DUTIES) if table.has("duty") else None,
        skin_side=table.flag("skin_side", default=False) or table.has("skin_toward"),
        skin_toward=_direction(table, "skin_toward") if table.has("skin_toward") else None,
        colour=table.text("colour", "any"),
        pose=_pose(table),
        sha256=table.text("sha256", "", empty=True),
        ignore_bores=table.flag("ignore_bores", default=False),
        rebore=rebore,
        mesh_unit=table.word("mesh_unit", MESH_UNITS) if table.has("mesh_unit") else None,
        layer_height_mm=table.number_or_none(
            "layer_height_mm", low=SETTINGS_RANGES["layer_height_mm"][0], high=SETTINGS_RANGES["layer_height_mm"][1]
        ),
        load_at_mm=table.vector("load_at_mm") if table.has("load_at_mm") else None,
        load_dir=_direction(table, "load_dir") if table.has("load_dir") else None,
        guessed=table.guessed(),
    )
    table.done()
    return part


def mesh_path(table: Table, base: Path) -> Path:
    """Return the mesh file of a part; refuse one that is not there, naming the nearest that is."""
    named = table.text("mesh")
    path = base / named
    if max(map(len, path.parts)) > NAME_MOST:
        raise JobError(where=f"{table.where} mesh", wrong="no file has so long a name", todo="check the path")
    if is_there(path):
        return path
    here = [entry.name for entry in path.parent.iterdir()] if is_there(path.parent, folder=True) else []
    todo = nearest(path.name, here) if here else "check the path, it is relative to the job file"
    raise JobError(where=f"{table.where} mesh", wrong=f"there is no file {named}", todo=todo)


def implied_part(name: str, folders: Iterable[Path]) -> Part | None:
    """Return the part that a mesh of this name makes, next to the other meshes; None where there is none."""
    for folder in dict.fromkeys(folders):
        for ending in MESH_ENDINGS:
            path = folder / f"{name}{ending}"
            if len(name) < NAME_MOST - 8 and "/" not in name and "\\" not in name and is_there(path):
                return Part(name=name, mesh=path)
    return None


def _scale(table: Table) -> PartScale:
    """Read ``scale``: "job", a percent, or three."""
    if not table.has("scale") or table.raw["scale"] == "job":
        return None
    if isinstance(table.raw["scale"], list):
        return table.vector("scale", low=1.0, high=SCALE_MOST)
    if isinstance(table.raw["scale"], str):
        table.refuse("scale", f"'{table.raw['scale']}' is not known", 'write "job", a percent, or [x, y, z]')
    return table.number("scale", low=1.0, high=SCALE_MOST)


def _pose(table: Table) -> Vec3 | None:
    """Read ``pose``: "auto", or the drawn direction that faces down, as a unit vector."""
    if not table.has("pose") or table.raw["pose"] == "auto":
        return None
    if isinstance(table.raw["pose"], str):
        table.refuse("pose", f"'{table.raw['pose']}' is not known", 'write "auto" or [x, y, z]')
    return _direction(table, "pose")


def _direction(table: Table, key: str) -> Vec3:
    """Read a drawn direction as a unit vector."""
    x, y, z = table.vector(key)
    length = math.sqrt(x * x + y * y + z * z)
    if length < 1e-9:
        table.refuse(key, "a direction of length 0 points nowhere", "write [0, 0, -1] for the drawn bottom")
    return x / length, y / length, z / length
