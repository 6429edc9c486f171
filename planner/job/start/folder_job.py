"""A folder of meshes as a job: its files become parts, everything else is left to guesses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Sequence
from pathlib import Path
from typing import Protocol

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


class FileObject(Protocol):
    """One object of a file that builds several."""

    @property
    def name(self) -> str:
        """Its name in the file."""

    @property
    def copies_n(self) -> int:
        """How many the file makes of it."""


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
    objects_in: Callable[[Path], Sequence[FileObject]] = lambda _path: (),
) -> Job:
    """Return the job that a folder of meshes makes by itself: one part a file, all of them guesses.

    ``objects_in`` names the objects of a file that builds several: each is a part.
    """
    apart = folders_apart(folder)
    meshes = meshes_in(folder, apart)
    parts = _parts(folder, meshes, objects_in)
    return Job(
        name=folder.resolve().name,
        path=folder,
        parts=parts,
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


def _parts(
    folder: Path, meshes: tuple[Path, ...], objects_in: Callable[[Path], Sequence[FileObject]]
) -> tuple[Part, ...]:
    """Return a part for each file, or for each object of a file that builds several.

    An object has its own name, with its file's before it where another part has that name.

    Raises
    ------
    CommandError
        Where that makes more parts than a device can have.
    """
    found = [(name, mesh, objects_in(mesh)) for name, mesh in zip(_names(folder, meshes), meshes, strict=True)]
    names = Counter(one.casefold() for name, _, inside in found for one in ([o.name for o in inside] or [name]))
    parts = []
    for name, mesh, inside in found:
        if not inside:
            parts.append(Part(name=name, mesh=mesh, guessed=("count", "handed")))
        for one in inside:
            own = one.name if names[one.name.casefold()] == 1 else f"{name} {one.name}"
            parts.append(
                Part(name=own, mesh=mesh, mesh_object=one.name, count=one.copies_n, guessed=("count", "handed"))
            )
    if len(parts) > PARTS_MOST:
        wrong = f"its files hold {len(parts)} objects, more than the {PARTS_MOST} parts that one device may have"
        raise CommandError(where=str(folder), wrong=wrong, todo="name the folder of one device")
    return tuple(parts)


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
