"""One folder to work in: meshes, the job file and the plan; nothing outside of it is read or written."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from itertools import count
from pathlib import Path
from threading import RLock
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from planner.errors import CommandError, FitwrightError, JobError
from planner.job import Job, job_of_folder, job_text, read_job, read_printer
from planner.mesh import Solid, objects_in, read_solid
from planner.output import CHAPTER_PAGE
from planner.photo import without_place
from planner.plan import prepare
from planner.whole_file import whole
from planner.whole_folder import alone as alone_in

MESH_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _.\-]{0,79}\.(stl|3mf|obj|ply)", re.IGNORECASE)
MESHES_MOST = 200
TOLD_MOST = 100
"""So many texts of the job are remembered as told: what a change that comes too late was meant for."""
FREE_TEXT = ("name", "reason", "role", "how", "colour", "recipient")
"""Keys that hold words of a person; in every other one a path must stay inside the folder."""


@dataclass(kw_only=True, eq=False)  # not frozen: Python writes __traceback__ on it
class ChangedError(CommandError):
    """The job file has changed since the page was told of it; both texts are kept for who sent the change."""

    yours: str
    theirs: str


def version_of(text: str) -> str:
    """Return what tells one text of the job from another."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16]


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
        self.chapter = self.path / "chapter"
        self._told: dict[str, str] = {}

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
        target = self._inside(self.parts / name)
        with whole(target) as tried:
            tried.write_bytes(data)
            read_solid(tried)
        return name

    def drop_mesh(self, name: str) -> None:
        """Take a mesh away."""
        if name not in self.meshes():
            raise CommandError(where=repr(name[:80]), wrong="there is no such mesh here", todo="name one of the list")
        self._inside(self.parts / name).unlink()

    def job_of(self, name: str) -> Job:
        """Return the job that one mesh makes by itself, everything in it a guess."""
        if name not in self.meshes():
            raise CommandError(where=repr(name[:80]), wrong="there is no such mesh here", todo="name one of the list")
        whole = job_of_folder(self.parts, printer=read_printer("bench-220", self.path), objects_in=objects_in)
        mesh = self._inside(self.parts / name)
        return replace(whole, parts=tuple(part for part in whole.parts if part.mesh.resolve() == mesh))

    def mesh(self, name: str) -> Solid:
        """Return one mesh as a solid."""
        if name not in self.meshes():
            raise CommandError(where=repr(name[:80]), wrong="there is no such mesh here", todo="name one of the list")
        return read_solid(self._inside(self.parts / name))

    def job_words(self) -> str:
        """Return the text of the job file, empty where there is none yet."""
        try:
            return self._inside(self.job_file).read_text(encoding="utf-8") if self.job_file.is_file() else ""
        except UnicodeDecodeError:
            raise JobError(where="job.toml", wrong="it is not UTF-8 text", todo="save it as UTF-8") from None

    def told(self, text: str) -> str:
        """Remember that a page was told a text of the job; return its version."""
        version = version_of(text)
        with self._changing:
            self._told.pop(version, None)
            self._told[version] = text
            while len(self._told) > TOLD_MOST:
                del self._told[next(iter(self._told))]
        return version

    def guess_job(self) -> str:
        """Write the job file that the meshes make by themselves, every guess marked; return its text."""
        if self.job_file.exists():
            raise CommandError(
                where="job.toml", wrong="it is there already", todo="give it another name; it is not overwritten"
            )
        if not self.meshes():
            raise CommandError(where="parts", wrong="there is no mesh yet", todo="drop some in first")
        job = job_of_folder(self.parts, printer=read_printer("bench-220", self.path), objects_in=objects_in)
        ready = prepare(replace(job, path=self.path, name=self.path.name), self.day())
        checks = {name: found.sha256 for name, found in ready.surveys.items()}
        return self.save_job(job_text(ready.job, checks, "bench-220"), version_of(""))

    def save_job(self, text: str, base: str | None = None) -> str:
        """Keep a job file that reads as one and stays inside the folder; return its text.

        ``base`` is the version that the text was made from: where another page, another desk or an editor has changed
        the file since, :class:`ChangedError` tells both texts, and the file stays. None: whatever stands there.
        """
        return self.change_job(lambda _: text, base)

    def change_job(self, change: Callable[[str], str], base: str | None = None) -> str:
        """Change the job file's text, one change after the other, and keep it as :meth:`save_job` does."""
        with self.alone():
            now = self.job_words()
            if base is not None and version_of(now) != base:
                self._refuse(change, base, now)
            return self._keep(change(now))

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Hold the folder: no other page, and no other desk, changes anything in it meanwhile."""
        with self._changing, alone_in(self.path):
            yield

    def _refuse(self, change: Callable[[str], str], base: str, now: str) -> None:
        """Say that a change came too late, with the text it would have made of what its page was told."""
        try:
            yours = change(self._told.get(base, now))
        except FitwrightError:
            yours = self._told.get(base, now)
        raise ChangedError(
            where="job.toml",
            wrong="it has changed since this page was told of it",
            todo="look at both texts and keep one of them",
            yours=yours,
            theirs=now,
        )

    def _keep(self, text: str) -> str:
        """Write a text that reads as a job and stays inside the folder; return it."""
        if any("\ud800" <= letter <= "\udfff" for letter in text):
            raise JobError(where="job.toml", wrong="it holds an incomplete character", todo="write it again")
        self._confined(text)
        target = self._inside(self.job_file)
        with whole(target) as tried:
            tried.write_text(text, encoding="utf-8")
            read_job(tried)
        return text

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
        return self._made(self.plan, name, "the plan has no such file", "plan the job first")

    def has_plan(self) -> bool:
        """Return whether a plan was written into this folder."""
        return (self.plan / "report.html").is_file()

    def has_chapter(self) -> bool:
        """Return whether a chapter was planned into this folder."""
        return (self.chapter / CHAPTER_PAGE).is_file()

    def of_chapter(self, name: str) -> Path:
        """Return a file of the chapter's plan: where this is the folder of a chapter, it lies in ``chapter``."""
        todo = "run fitwright chapter . in this folder first"
        return self._made(self.chapter, name, "the chapter's plan has no such file", todo)

    def keep_photo(self, data: bytes) -> str:
        """Write a photo that somebody asked to keep into ``photos``; nothing of where it was taken goes with it."""
        kept = without_place(data, "the photo")
        with self.alone():
            photos = self._inside(self.path / "photos")
            photos.mkdir(exist_ok=True)
            name = next(one for n in count(1) if not (photos / (one := f"{self.day()}-{n}.jpg")).exists())
            with whole(photos / name) as tried:
                tried.write_bytes(kept)
        return f"photos/{name}"

    def _made(self, where: Path, name: str, wrong: str, todo: str) -> Path:
        """Return a file that a command wrote; nothing beside its folder."""
        path = self._inside(where / name)
        if not path.is_relative_to(where) or not path.is_file():
            raise CommandError(where=repr(name[:80]), wrong=wrong, todo=todo)
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
        for key, word in words_in(document):
            if key not in FREE_TEXT and self._leads_out(word):
                raise JobError(
                    where=f"job.toml: {key}",
                    wrong=f"{word[:80]!r} leads out of the desk's folder",
                    todo="keep it inside",
                )


def words_in(value: Any, key: str = "") -> list[tuple[str, str]]:
    """Return every text in a document with the key that it stands under."""
    if isinstance(value, str):
        return [(key, value)]
    if isinstance(value, dict):
        return [found for name, inner in value.items() for found in words_in(inner, str(name))]
    if isinstance(value, list):
        return [found for inner in value for found in words_in(inner, key)]
    return []
