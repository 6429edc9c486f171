"""3MF (ISO/IEC 25422), read by the consortium's own library in strict mode."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from planner.errors import MeshError, nearest
from planner.mesh.formats.soup import TRIANGLES_MOST, Soup

try:
    import lib3mf
except ImportError:  # no wheel for this platform
    lib3mf = None

BYTES_MOST = 1_000_000_000
"""Unpacked, a part's file is never larger than this."""
UNITS = {0: "micron", 1: "mm", 2: "cm", 3: "inch", 4: "foot", 5: "m"}
UNFIT = re.compile(r"[^\w .,()+-]")
"""What a part's name cannot have: it also names files, and "#" numbers copies."""
ENDING = re.compile(r"\.(stl|3mf|obj|ply|step|stp)$", re.IGNORECASE)
NAME_MOST = 60
DEPTH_MOST, VISITS_MOST = 20, 10_000
"""Components within components, and components and meshes in all."""


T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshObject:
    """One object of a file that builds several: its name, and how many items the file makes of it."""

    name: str
    copies_n: int


@dataclass
class _Pieces:
    """Meshes collected so far, as (vertices, faces) at their places, and how much has been looked at."""

    where: str
    meshes: list[tuple[NDArray[np.float64], NDArray[np.int64]]] = field(default_factory=list)
    visits_n: int = 0
    triangles_n: int = 0

    def visit(self, depth: int) -> None:
        """Refuse what is nested too deeply, or named too often: a few bytes could name billions."""
        self.visits_n += 1
        if depth == 0:
            raise MeshError(where=self.where, wrong="its components are nested too deeply", todo="export it again")
        if self.visits_n > VISITS_MOST or self.triangles_n > TRIANGLES_MOST:
            wrong = f"it holds more than {VISITS_MOST} components or {TRIANGLES_MOST} triangles"
            raise MeshError(where=self.where, wrong=wrong, todo="export the part alone")

    def add(self, vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> None:
        """Add one mesh."""
        self.triangles_n += len(faces)
        self.meshes.append((vertices, faces))


@cache
def wrapper_3mf() -> Any:
    """Return the library's table of functions, loaded once: it takes longer than a plate's file."""
    return lib3mf.get_wrapper()


def parse_3mf(raw: bytes, where: str, only: str = "") -> Soup:
    """Return all build items of a 3MF file as one soup of triangles, in the file's unit.

    Parameters
    ----------
    only
        Name of one object, as :func:`objects_of_3mf` tells it: it alone, where the first item places it.

    Raises
    ------
    MeshError
        Not a package, too large unpacked, refused by the standard's rules, or nothing to build in it.
    """
    return _read(raw, where, lambda model: _soup(model, where, only))


def objects_of_3mf(raw: bytes, where: str) -> tuple[MeshObject, ...]:
    """Return the objects that a 3MF file builds, in their order, each with a name of its own.

    Raises
    ------
    MeshError
        As :func:`parse_3mf`.
    """
    return _read(raw, where, lambda model: tuple(MeshObject(name=n, copies_n=len(i)) for n, i in _named(model).items()))


def _read(raw: bytes, where: str, told: Callable[[Any], T]) -> T:
    """Return what is told of a package that keeps to the standard."""
    if lib3mf is None:
        raise MeshError(
            where=where, wrong="3MF cannot be read on this computer (lib3mf is missing)", todo="save it as STL"
        )
    _bounded(raw, where)
    try:
        model = wrapper_3mf().CreateModel()
        reader = model.QueryReader("3mf")
        reader.SetStrictModeActive(StrictModeActive=True)
        reader.ReadFromBuffer(raw)
        return told(model)
    except lib3mf.ELib3MFException as problem:
        reason = str(problem).split(":", 1)[-1].strip() or "no reason given"
        wrong = f"it breaks the 3MF standard ({reason})"
        raise MeshError(where=where, wrong=wrong, todo="export it again") from None


def _soup(model: Any, where: str, only: str) -> Soup:
    """Return the triangles of all build items, or of one object."""
    pieces, named = _Pieces(where), _named(model)
    if only and only not in named:
        raise MeshError(where=where, wrong=f"no object in it is called '{only}'", todo=nearest(only, named))
    for item in named[only][:1] if only else (item for items in named.values() for item in items):
        placed = _matrix(item.GetObjectTransform()) if item.HasObjectTransform() else np.eye(4)[:, :3]
        _collect(item.GetObjectResource(), placed, pieces, DEPTH_MOST)
    if not pieces.meshes:
        raise MeshError(where=where, wrong="there is nothing to build in it", todo="export the part again")
    starts = np.cumsum([0, *(len(vertices) for vertices, _ in pieces.meshes)])
    faces = [faces + start for (_, faces), start in zip(pieces.meshes, starts, strict=False)]
    unit = UNITS[int(model.GetUnit())]
    return Soup(vertices=np.concatenate([v for v, _ in pieces.meshes]), faces=np.concatenate(faces), unit=unit)


def _named(model: Any) -> dict[str, list[Any]]:
    """Return the build items of each solid object under a name of its own: the file's, made fit to name a part."""
    found: dict[int, list[Any]] = {}
    items = model.GetBuildItems()
    while items.MoveNext():
        item = items.GetCurrent()
        if item.GetObjectResource().GetType() == lib3mf.ObjectType.Model:
            found.setdefault(int(item.GetObjectResourceID()), []).append(item)
    named: dict[str, list[Any]] = {}
    for number, mine in enumerate(found.values(), start=1):
        told = " ".join(UNFIT.sub(" ", mine[0].GetObjectResource().GetName()).split())[:NAME_MOST].strip()
        first = name = ENDING.sub("", told) or f"object {number}"
        again = 2
        while name.casefold() in {one.casefold() for one in named}:
            name, again = f"{first} {again}", again + 1
        named[name] = mine
    return named


def _bounded(raw: bytes, where: str) -> None:
    """Refuse what is no package, or would unpack to more than a part can be."""
    try:
        size = sum(entry.file_size for entry in zipfile.ZipFile(io.BytesIO(raw)).infolist())
    except (zipfile.BadZipFile, NotImplementedError, ValueError, OSError):
        raise MeshError(where=where, wrong="it is not a 3MF package", todo="export it again") from None
    if size > BYTES_MOST:
        raise MeshError(where=where, wrong=f"it unpacks to {size / 1e9:.1f} GB", todo="export it coarser")


def _matrix(transform: Any) -> NDArray[np.float64]:
    """Return a transform as (4, 3): three rows that turn, one that moves; points are rows."""
    return np.array([[transform.Fields[row][column] for column in range(3)] for row in range(4)])


def _collect(resource: Any, placed: NDArray[np.float64], pieces: _Pieces, depth: int) -> None:
    """Add the triangles of an object, or of its components, where they are placed; only solid objects count.

    Objects of type support, surface or other are not the part (3MF core specification, object types).
    """
    pieces.visit(depth)
    if resource.GetType() != lib3mf.ObjectType.Model:
        return
    if resource.IsMeshObject():
        vertices = np.array([tuple(v.Coordinates) for v in resource.GetVertices()], dtype=np.float64).reshape(-1, 3)
        faces = np.array([tuple(t.Indices) for t in resource.GetTriangleIndices()], dtype=np.int64).reshape(-1, 3)
        if np.linalg.det(placed[:3]) < 0:  # a mirroring transform turns the winding
            faces = faces[:, ::-1]
        pieces.add(vertices @ placed[:3] + placed[3], faces)
    elif resource.IsComponentsObject():
        for index in range(resource.GetComponentCount()):
            part = resource.GetComponent(index)
            own = _matrix(part.GetTransform()) if part.HasTransform() else np.eye(4)[:, :3]
            both = np.vstack([own[:3] @ placed[:3], own[3] @ placed[:3] + placed[3]])
            _collect(part.GetObjectResource(), both, pieces, depth - 1)
