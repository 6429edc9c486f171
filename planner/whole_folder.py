"""A folder is written whole or not at all: beside its place first, then both change places at one moment."""

from __future__ import annotations

import ctypes
import hashlib
import json
import os
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout

from planner.errors import CommandError

WAIT_S = 60.0
"""How long one program waits for another that writes the same folder; writing takes seconds."""
MANIFEST = "plates/manifest.json"
"""What a program wrote into a plan's folder, by checksum; all else there is people's own."""
AT_CWD, SWAP = -100, 2
"""``AT_FDCWD`` and ``RENAME_EXCHANGE`` of Linux; ``RENAME_SWAP`` of macOS is 2 as well (their headers, from memory)."""


@contextmanager
def whole_folder(folder: Path, ours: Callable[[Path], frozenset[str]]) -> Iterator[Path]:
    """Yield a twin of a folder to be filled; it takes the folder's place where the block ends well.

    Parameters
    ----------
    folder
        Where the twin ends; it need not exist.
    ours
        Which files of the old folder a program wrote and nobody has changed since, by their paths in it; none where
        the folder is not ours. All others are people's: they lie in the twin from the start, and must not be written
        to where they lie, as they are the same files by a second name.

    A program that is killed leaves the old folder or the new one; what lies beside it is cleared away by the next.
    A folder that is not ours, or that somebody stands in, does not change places: its files change one by one after
    all of them have been written, and those that were ours and are not written again go last.

    Raises
    ------
    CommandError
        Another program has been writing the same folder for a minute.
    """
    folder = folder.resolve()
    folder.parent.mkdir(parents=True, exist_ok=True)
    with held(folder):
        twin = folder.parent / f"{_beside(folder)}new-{os.getpid()}"
        twin.mkdir()
        try:
            old = ours(folder) if folder.is_dir() else frozenset()
            for name in sorted(files_in(folder) - old):
                _link(folder / name, twin / name)
            yield twin
            if not folder.exists():
                twin.rename(folder)
            elif old and not _stood_in(folder):
                _change_places(twin, folder)
            else:
                _move_over(twin, folder, old)
        finally:
            shutil.rmtree(twin, ignore_errors=True)


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """Hold a folder's lock as ``alone`` does, with what killed programs left there put back or cleared away."""
    with alone(folder):
        _recover(folder)
        yield


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Hold a folder's lock, so that no other program changes it meanwhile.

    It is a file of the system's folder for temporary files, not one beside people's files, and it goes before the lock
    is given up: who got hold of it meanwhile sees that it has no name any more, and makes it anew (``filelock`` does so
    from 4.3 on). What a killed program leaves there, the next one on the same folder takes away.

    Raises
    ------
    CommandError
        Another program has held it for a minute.
    """
    key = hashlib.sha256(f"{folder} {os.getuid() if hasattr(os, 'getuid') else ''}".encode()).hexdigest()[:24]
    lock = FileLock(Path(tempfile.gettempdir()) / f"fitwright-{key}.lock", timeout=WAIT_S)
    try:
        with lock:
            try:
                yield
            finally:
                with suppress(OSError):  # Windows takes it away itself, and not while it is held
                    Path(lock.lock_file).unlink(missing_ok=True)
    except Timeout:
        raise CommandError(
            where=str(folder), wrong="another program is writing this folder", todo="wait until it is done"
        ) from None


def _beside(folder: Path) -> str:
    """Return how the names of our folders beside a folder begin."""
    return f".{folder.name}.fitwright-"


def _recover(folder: Path) -> None:
    """Put back what a killed program had just moved aside, and clear away what others left; the lock is held."""
    left = sorted(folder.parent.glob(f"{_glob_safe(_beside(folder))}*"))
    old = next((one for one in left if one.name.endswith("-old")), None)
    if old is not None and not folder.exists():
        old.rename(folder)
    for one in left:
        shutil.rmtree(one, ignore_errors=True)


def _glob_safe(text: str) -> str:
    """Return a text whose letters mean themselves in a pattern."""
    return "".join(f"[{letter}]" if letter in "*?[" else letter for letter in text)


def _link(old: Path, new: Path) -> None:
    """Give a file a second name; a copy where the disk cannot."""
    new.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(old, new, follow_symlinks=False)
    except OSError:
        shutil.copy2(old, new, follow_symlinks=False)


def _change_places(twin: Path, folder: Path) -> None:
    """Put a filled twin in a folder's place, in one step where the system can."""
    twin.chmod(folder.stat().st_mode & 0o7777)
    if not _exchanged(twin, folder):
        aside = folder.parent / f"{_beside(folder)}{os.getpid()}-old"
        folder.rename(aside)
        twin.rename(folder)
        shutil.rmtree(aside, ignore_errors=True)


def _move_over(twin: Path, folder: Path, old: frozenset[str]) -> None:
    """Move what is new in a twin into a folder, then take out what was ours and is not in the twin."""
    new = files_in(twin)
    for name in sorted(new):
        target = folder / name
        if not (target.exists() and target.samefile(twin / name)):
            target.parent.mkdir(parents=True, exist_ok=True)
            (twin / name).replace(target)
    for name in sorted(old - new):
        (folder / name).unlink(missing_ok=True)


def files_in(folder: Path) -> frozenset[str]:
    """Return the paths of all files below a folder, relative to it, with forward slashes."""
    return frozenset(
        path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_symlink() or not path.is_dir()
    )


def untouched_files(folder: Path, at: str = MANIFEST) -> frozenset[str]:
    """Return the files of a folder that its manifest, which lies ``at`` a path in it, lists and nobody has changed."""
    told = told_in(folder, at)
    if told is None:
        return frozenset()
    same = {name for name, row in told["files"].items() if _sha256(folder / name) == row["sha256"]}
    return frozenset(same | {at})


def told_in(folder: Path, at: str = MANIFEST) -> dict[str, Any] | None:
    """Return what a folder's manifest tells; None where there is none, it is damaged, or it names what lies outside."""
    try:
        told: dict[str, Any] = json.loads((folder / at).read_text(encoding="utf-8"))
        sound = all(isinstance(row["sha256"], str) and lies_inside(name) for name, row in told["files"].items())
        return told if sound else None
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def lies_inside(name: str) -> bool:
    """Return whether a path, as a manifest or a kept plan gives it, leads to a file below its folder on any system.

    >>> lies_inside("plates/plate-1.3mf"), lies_inside("../.profile"), lies_inside("C:/x")
    (True, False, False)
    """
    steps = name.split("/")
    return all(step not in ("", ".", "..") and not set(step) & set("\\:\0") for step in steps)


def _sha256(path: Path) -> str:
    """Return a file's checksum; empty where it cannot be read."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _stood_in(folder: Path) -> bool:
    """Return whether this program, and so the shell it was started from, stands in a folder, or a disk begins there."""
    try:
        here = Path.cwd().resolve()
    except OSError:
        return True
    return folder == here or folder in here.parents or folder.is_mount()


def _exchanged(one: Path, other: Path) -> bool:
    """Let two folders change places in one step; False where the system cannot."""
    names = os.fsencode(one), os.fsencode(other)
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            return bool(library.renamex_np(*names, SWAP) == 0)
        return bool(library.renameat2(AT_CWD, names[0], AT_CWD, names[1], SWAP) == 0)
    except (OSError, AttributeError, TypeError):
        return False
