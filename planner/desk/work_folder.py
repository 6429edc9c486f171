"""One folder to work in: meshes, the job file and the plan; nothing outside of it is read or written."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from threading import RLock
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from planner.errors import CommandError, JobError
from planner.job import Job, job_of_folder, job_text, read_job, read_printer
from planner.mesh import read_solid
from planner.plan import prepare
from planner.whole_file import whole

MESH_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _.\-]{0,79}\.(stl|3mf|obj|ply)", re.IGNORECASE)
MESHES_MOST = 200
FREE_TEXT = ("name", "reason", "role", "how", "colour", "recipient")
"""Keys that hold words of a person; in every other one a path must stay inside the folder."""


class DeskFolder:
    """The folder and what may be done in it.

    Raises
    ------
    CommandError, JobError, MeshError
        From every method, in one sentence, where it cannot be done; what was there before then stands as it was.
    """

    def __init__(self, path: Path, day: Callable[[], date]) -> None:
        self.path, self.day, self._changing = path.resolve(), day, RLock()
        self.parts = self.path / "parts"
        self.job_file = self.path / "job.toml"
        self.plan = self.path / "plan"

    def meshes(self) -> list[str]:
        """Return the names of the meshes in ``parts/``."""
        if not self.parts.is_dir():
            return []
        return sorted(entry.name for entry in self.parts.iterdir() if MESH_NAME.fullmatch(entry.name))

    def add_mesh(self, name: str, data: bytes) -> str:
        """Keep a mesh file once it was read as a solid; return its name."""
        if not MESH_NAME.fullmatch(name) or ".." in name:
            raise CommandError(
                where=repr(name[:80]),
                wrong="this is not a name for a mesh",
                todo="use letters, digits and .stl or .3mf",
            )
        if len(self.meshes()) >= MESHES_MOST:
            raise CommandError(where=name, wrong=f"there are {MESHES_MOST} meshes already", todo="take some away")
        self.parts.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=self.path) as aside:
            tried = Path(aside) / name
            tried.write_bytes(data)
            read_solid(tried)
            tried.replace(self._inside(self.parts / name))
        return name

    def drop_mesh(self, name: str) -> None:
        """Take a mesh away."""
        if name not in self.meshes():
            raise CommandError(where=repr(name[:80]), wrong="there is no such mesh here", todo="name one of the list")
        self._inside(self.parts / name).unlink()

    def job_words(self) -> str:
        """Return the text of the job file, empty where there is none yet."""
        return self._inside(self.job_file).read_text(encoding="utf-8") if self.job_file.is_file() else ""

    def guess_job(self) -> str:
        """Write the job file that the meshes make by themselves, every guess marked; return its text."""
        if self.job_file.exists():
            raise CommandError(
                where="job.toml", wrong="it is there already", todo="give it another name; it is not overwritten"
            )
        if not self.meshes():
            raise CommandError(where="parts", wrong="there is no mesh yet", todo="drop some in first")
        job = job_of_folder(self.parts, printer=read_printer("bench-220", self.path))
        ready = prepare(replace(job, path=self.path, name=self.path.name), self.day())
        checks = {name: found.sha256 for name, found in ready.surveys.items()}
        return self.save_job(job_text(ready.job, checks, "bench-220"))

    def save_job(self, text: str) -> str:
        """Keep a job file that reads as one and stays inside the folder; return its text."""
        if any("\ud800" <= letter <= "\udfff" for letter in text):
            raise JobError(where="job.toml", wrong="it holds an incomplete character", todo="write it again")
        self._confined(text)
        target = self._inside(self.job_file)
        with self._changing, whole(target) as tried:
            tried.write_text(text, encoding="utf-8")
            try:
                read_job(tried)
            except JobError as error:
                where = error.where.replace(tried.name, target.name)
                raise JobError(where=where, wrong=error.wrong, todo=error.todo) from None
        return text

    def change_job(self, change: Callable[[str], str]) -> str:
        """Change the job file's text, one change after the other, and keep it as :meth:`save_job` does."""
        with self._changing:
            return self.save_job(change(self.job_words()))

    def job(self) -> Job:
        """Return the job of the file."""
        if not self.job_file.is_file():
            raise CommandError(
                where="job.toml", wrong="there is none yet", todo="drop meshes in and let the desk guess it"
            )
        self._confined(self.job_words())
        return read_job(self.job_file)

    def of_plan(self, name: str) -> Path:
        """Return a file of the plan."""
        path = self._inside(self.plan / name)
        if not path.is_relative_to(self.plan) or not path.is_file():
            raise CommandError(where=repr(name[:80]), wrong="the plan has no such file", todo="plan the job first")
        return path

    def _inside(self, path: Path) -> Path:
        """Return a path once links and dots are followed; refuse one that leads out."""
        try:
            real = path.resolve()
            real.is_file()
        except (ValueError, OSError):
            raise CommandError(where=repr(path.name[:80]), wrong="this is not a name", todo="keep it plain") from None
        if not real.is_relative_to(self.path):
            raise CommandError(
                where=repr(path.name[:80]), wrong="it leads out of the desk's folder", todo="keep it inside"
            )
        return real

    def _leads_out(self, word: str) -> bool:
        """Return whether a text, taken as a path, leads out of the folder."""
        if Path(word).is_absolute() or ".." in Path(word).parts or "\\" in word or "\0" in word:
            return True
        try:
            return not (self.path / word).resolve().is_relative_to(self.path)
        except (OSError, ValueError):
            return True

    def _confined(self, text: str) -> None:
        """Refuse a job that names a file outside of the folder."""
        try:
            document = tomlkit.parse(text).unwrap()
        except (TOMLKitError, ValueError, RecursionError) as error:
            told = str(error).splitlines()[0] if str(error) else "it is no TOML"
            raise JobError(
                where="job.toml", wrong=f"it cannot be read ({told[:120]})", todo="correct that place"
            ) from None
        for key, word in _words(document):
            if key not in FREE_TEXT and self._leads_out(word):
                raise JobError(
                    where=f"job.toml: {key}",
                    wrong=f"{word[:80]!r} leads out of the desk's folder",
                    todo="keep it inside",
                )


def _words(value: Any, key: str = "") -> list[tuple[str, str]]:
    """Return every text in a document with the key that it stands under."""
    if isinstance(value, str):
        return [(key, value)]
    if isinstance(value, dict):
        return [found for name, inner in value.items() for found in _words(inner, str(name))]
    if isinstance(value, list):
        return [found for inner in value for found in _words(inner, key)]
    return []
