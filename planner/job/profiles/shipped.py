"""Where shipped data are: next to the package in a checkout, inside it in a wheel; and which profile a name means."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from planner.errors import ProfileError, nearest
from planner.job.file.toml_file import is_there

PACKAGE = Path(__file__).resolve().parents[2]


def shipped(folder: str) -> Path:
    """Return a shipped folder, ``"profiles"`` or ``"sample_parts"``.

    >>> shipped("profiles").is_dir()
    True
    """
    inside = PACKAGE / "shipped" / folder
    return inside if inside.is_dir() else PACKAGE.parent / folder


@cache
def shipped_names(kind: str) -> tuple[str, ...]:
    """Return the names of the shipped profiles of a kind: printers, materials, settings, limits.

    >>> "bench-220" in shipped_names("printers")
    True
    """
    return tuple(sorted(path.stem for path in (shipped("profiles") / kind).glob("*.toml")))


def profile_path(kind: str, name: str, base: Path) -> Path:
    """Return the file that a name or a path means; a path is relative to ``base``.

    Raises
    ------
    ProfileError
        Where there is neither a shipped profile of that name nor such a file.
    """
    if name in shipped_names(kind):
        return shipped("profiles") / kind / f"{name}.toml"
    own = base / name
    if is_there(own):
        return own
    if name.endswith(".toml") or "/" in name or "\\" in name:
        raise ProfileError(where=name, wrong=f"there is no such file in {base}", todo="check the path")
    raise ProfileError(
        where=f"{kind} '{name}'", wrong="no profile of that name is shipped", todo=nearest(name, shipped_names(kind))
    )
