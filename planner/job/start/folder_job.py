"""A folder of meshes as a job: its files become parts, everything else is left to guesses."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from planner.errors import CommandError
from planner.finding import Guess
from planner.job.bought import Spool
from planner.job.job import Job, Part
from planner.job.measured_size import Size
from planner.job.profiles.material import Material
from planner.job.profiles.printer import Printer
from planner.job.profiles.profile_file import read_limits, read_material, read_settings
from planner.job.profiles.shipped import shipped_names
from planner.job.profiles.stock_file import read_tables

MESH_ENDINGS = (".stl", ".3mf", ".obj", ".ply")
PARTS_MOST = 300
"""More mesh files than this are a library, not a device."""
OWN_FILES = {"plan.json": "a plan wrote it", "job.toml": "it holds a job of its own"}
"""What a folder below holds whose meshes are no further parts, and why."""


def meshes_in(folder: Path, apart: Collection[Path]) -> tuple[Path, ...]:
    """Return the mesh files in a folder and below, sorted; hidden folders and those ``apart`` are passed over.

    Raises
    ------
    CommandError
        Where there is none, or more than a device can have.
    """
    passed = frozenset(apart)
    found = sorted(
        path
        for path in folder.rglob("*")
        if path.suffix.lower() in MESH_ENDINGS
        and path.is_file()
        and not any(piece.startswith(".") for piece in path.relative_to(folder).parts)
        and passed.isdisjoint(path.parents)
    )
    if not found:
        raise CommandError(
            where=str(folder), wrong="there is no STL, 3MF, OBJ or PLY file in it", todo="name a folder of meshes"
        )
    if len(found) > PARTS_MOST:
        raise CommandError(
            where=str(folder),
            wrong=f"there are {len(found)} mesh files in it, more than the {PARTS_MOST} that one device may have",
            todo="name the folder of one device",
        )
    return tuple(found)


def folders_apart(folder: Path) -> dict[Path, str]:
    """Return the folders below one whose meshes are not its parts, each with the reason."""
    return {
        path.parent: why
        for name, why in OWN_FILES.items()
        for path in sorted(folder.rglob(name))
        if path.parent != folder
    }


def job_of_folder(
    folder: Path,
    *,
    printer: Printer,
    size: Size | None = None,
    spools: tuple[Spool, ...] = (),
    mesh_unit: str | None = None,
    printer_stated: bool = False,
) -> Job:
    """Return the job that a folder of meshes makes by itself: one part a file, all of them guesses."""
    apart = folders_apart(folder)
    meshes = meshes_in(folder, apart)
    names = _names(folder, meshes)
    return Job(
        name=folder.resolve().name,
        path=folder,
        parts=tuple(
            Part(name=name, mesh=mesh, guessed=("count", "handed")) for name, mesh in zip(names, meshes, strict=True)
        ),
        printer=printer,
        settings=read_settings("standard-0.4", folder),
        materials=_materials(folder, spools),
        limits=read_limits(),
        tables=read_tables(),
        mesh_unit=mesh_unit,
        size=size or Size(),
        spools=spools,
        guessed=True,
        guessed_keys=() if printer_stated else ("printer",),
        notes=tuple(
            Guess(what=f"meshes in {path.relative_to(folder).as_posix()}", value="no parts", why=why)
            for path, why in apart.items()
        ),
    )


def _names(folder: Path, meshes: tuple[Path, ...]) -> tuple[str, ...]:
    """Return a name for each file: its stem, with its folder or ending before it where stems repeat."""
    stems = [mesh.stem for mesh in meshes]
    return tuple(
        mesh.stem if stems.count(mesh.stem) == 1 else mesh.relative_to(folder).as_posix().replace("/", " ")
        for mesh in meshes
    )


def _materials(folder: Path, spools: tuple[Spool, ...]) -> tuple[Material, ...]:
    """Return the materials at hand, or all shipped ones."""
    names = dict.fromkeys(spool.material for spool in spools) or shipped_names("materials")
    return tuple(read_material(name, folder) for name in names)
