"""Read a mesh file as a solid in mm."""

from __future__ import annotations

import hashlib
from pathlib import Path

import numpy as np

from planner.errors import MeshError, nearest
from planner.mesh.formats.read_3mf import MeshObject, objects_of_3mf, parse_3mf
from planner.mesh.formats.read_obj import parse_obj
from planner.mesh.formats.read_ply import parse_ply
from planner.mesh.formats.read_stl import parse_stl
from planner.mesh.formats.soup import Soup, checked
from planner.mesh.repair.heal import healed
from planner.mesh.solid import Solid

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": 25.4, "foot": 304.8, "micron": 0.001}
"""Exact; the inch since 1959 (international yard and pound agreement)."""
ENDINGS = (".stl", ".3mf", ".obj", ".ply")
PACKAGE = b"PK\x03\x04"
BYTES_MOST = 2_000_000_000


def read_solid(path: Path, *, name: str | None = None, unit: str | None = None, only: str = "") -> Solid:
    """Read STL, 3MF, OBJ or PLY as a solid in mm, healed where that is unambiguous.

    Parameters
    ----------
    name
        Of the part; the file's stem where left out.
    unit
        Of the file's coordinates: mm, cm, m or inch; mm where left out. A 3MF's own unit wins, and a
        conflict is noted in ``unit_doubt``.
    only
        Name of one object of a 3MF that builds several; all of them as one solid where left out.

    Raises
    ------
    MeshError
        Where the file cannot be read as a surface at all; one that is not sound is read, with its faults.
    """
    if unit is not None and unit not in MM_PER_UNIT:
        raise MeshError(where=f"unit '{unit}'", wrong="it is not known", todo=nearest(unit, MM_PER_UNIT))
    raw = _bytes(path)
    soup = checked(_parsed(raw, path, only), path.name)
    doubt = ""
    if soup.unit is not None and unit is not None and soup.unit != unit:
        doubt = f"{path.name} says that it is in {soup.unit}, the job says {unit}: the file's own unit is taken"
    chosen = soup.unit or unit or "mm"
    whole = healed(soup)
    if not len(whole.faces):
        wrong = "none of its triangles has an area"
        raise MeshError(where=path.name, wrong=wrong, todo="export the part again")
    return Solid(
        name=name or path.stem,
        vertices_mm=np.ascontiguousarray(whole.vertices * MM_PER_UNIT[chosen]),
        faces=np.ascontiguousarray(whole.faces),
        sha256=hashlib.sha256(raw).hexdigest(),
        unit=chosen,
        unit_doubt=doubt,
        healed=whole.healed,
        faults=whole.faults,
        bodies_n=whole.bodies_n,
    )


def objects_in(path: Path) -> tuple[MeshObject, ...]:
    """Return the objects of a 3MF file that builds several; none of any other file, nor of one that cannot be read."""
    try:
        if path.suffix.lower() != ".3mf" or not path.is_file():
            return ()
        found = objects_of_3mf(_bytes(path), path.name)
    except MeshError:
        return ()
    return found if sum(one.copies_n for one in found) > 1 else ()


def _bytes(path: Path) -> bytes:
    """Return a file's bytes."""
    try:
        if not path.is_dir() and path.exists() and not path.is_file():
            raise MeshError(where=str(path), wrong="it is not an ordinary file", todo="name a mesh file")
        size = path.stat().st_size
        if size > BYTES_MOST:
            raise MeshError(where=path.name, wrong=f"it has {size / 1e9:.1f} GB", todo="export it coarser")
        raw = path.read_bytes()
    except IsADirectoryError:
        raise MeshError(where=str(path), wrong="this is a folder, not a mesh", todo="name the files in it") from None
    except (OSError, ValueError) as problem:  # a path with a NUL in it is a ValueError
        told = getattr(problem, "strerror", None) or problem
        raise MeshError(
            where=repr(str(path))[1:-1], wrong=f"it cannot be read ({told})", todo="check the path"
        ) from None
    if not raw:
        raise MeshError(where=path.name, wrong="the file is empty", todo="export the part again")
    return raw


def _parsed(raw: bytes, path: Path, only: str) -> Soup:
    """Parse by the ending; a 3MF package is one whatever its name."""
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        told = f"'{path.suffix}' is not the ending of a mesh file" if path.suffix else "the file has no ending"
        raise MeshError(where=path.name, wrong=told, todo="name a .stl, .3mf, .obj or .ply file")
    if ending == ".3mf" or raw[:4] == PACKAGE:
        return parse_3mf(raw, path.name, only)
    if only:
        wrong = f"no object in it can be called '{only}': only a 3MF file names its objects"
        raise MeshError(where=path.name, wrong=wrong, todo="take mesh_object out, or name a .3mf file")
    if ending == ".stl":
        return parse_stl(raw, path.name)
    return parse_obj(raw, path.name) if ending == ".obj" else parse_ply(raw, path.name)
