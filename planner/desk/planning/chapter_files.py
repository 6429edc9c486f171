"""The files that a chapter is planned from, changed at the desk: who comes second is told, and keeps their text."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from planner.desk.work_folder import FREE_TEXT, ChangedError, DeskFolder, version_of, words_in
from planner.errors import CommandError, JobError
from planner.job import read_job
from planner.ledger import events_of
from planner.whole_file import whole
from planner.whole_folder import alone

CHAPTER = "chapter.toml"
JOB = "job.toml"
TEXT_MOST = 1_000_000
URL = "://"


class ChapterFiles:
    """The chapter's own file, and the job of every recipient: all inside of one desk's folder.

    Raises
    ------
    CommandError, JobError, LedgerError
        From every method, in one sentence, where it cannot be done; the file then stands as it was.
    """

    def __init__(self, folder: DeskFolder) -> None:
        self.folder = folder

    def names(self) -> list[str]:
        """Return the files by their paths in the folder, the chapter's first; ``fitwright chapter .`` reads these."""
        home = self.folder.path
        own = [name for name in (CHAPTER, JOB) if (home / name).is_file()]
        inside = [] if JOB in own else sorted(f"{path.parent.name}/{JOB}" for path in home.glob(f"*/{JOB}"))
        return [*own, *(name for name in inside if (home / name).resolve().is_relative_to(home))]

    def told(self, name: str) -> dict[str, str]:
        """Return a file's text, and the version that a change of it is made from."""
        text = self._words(name)
        return {"name": name, "text": text, "version": version_of(text)}

    def save(self, name: str, text: str, base: str | None) -> dict[str, str]:
        """Keep a text that reads as what its file is; return it as it stands.

        ``base`` is the version that it was made from: where somebody has changed the file since, :class:`ChangedError`
        tells both texts. None: whatever stands there.
        """
        with alone(self.folder.path):
            now = self._words(name)
            if base is not None and version_of(now) != base:
                todo = "look at both texts and keep one of them"
                wrong = "it has changed since this page was told of it"
                raise ChangedError(where=name, wrong=wrong, todo=todo, yours=text, theirs=now)
            self._confined(name, text)
            with whole(self.folder.path / name) as tried:
                tried.write_text(text, encoding="utf-8")
                if name == CHAPTER:
                    events_of(tried, datetime.combine(self.folder.day(), datetime.min.time()))
                else:
                    read_job(tried)
        return self.told(name)

    def _words(self, name: str) -> str:
        """Return a file's text."""
        if name not in self.names():
            raise CommandError(where=repr(name[:80]), wrong="the chapter has no such file", todo="name one of the list")
        try:
            return (self.folder.path / name).read_text(encoding="utf-8")
        except UnicodeDecodeError:
            raise JobError(where=name, wrong="it is not UTF-8 text", todo="save it as UTF-8") from None

    def _confined(self, name: str, text: str) -> None:
        """Refuse a text that names a file outside of the desk's folder, or that is no TOML."""
        if len(text) > TEXT_MOST or any("\ud800" <= letter <= "\udfff" for letter in text):
            raise JobError(where=name, wrong="it is too long, or holds an incomplete character", todo="write it again")
        try:
            document = tomlkit.parse(text).unwrap()
        except (TOMLKitError, ValueError, RecursionError) as error:
            told = (str(error).splitlines() or ["it is no TOML"])[0]
            raise JobError(where=name, wrong=f"it cannot be read ({told[:120]})", todo="correct that place") from None
        for key, word in words_in(document):
            url = name == CHAPTER and key == "ledger" and URL in word
            if key not in FREE_TEXT and not url and self._leads_out((self.folder.path / name).parent, word):
                wrong = f"{word[:80]!r} leads out of the desk's folder"
                raise JobError(where=f"{name}: {key}", wrong=wrong, todo="keep it inside")

    def _leads_out(self, home: Path, word: str) -> bool:
        """Return whether a text, taken as a path beside its file, leads out of the folder."""
        if Path(word).is_absolute() or "\\" in word or "\0" in word:
            return True
        try:
            return not (home / word).resolve().is_relative_to(self.folder.path)
        except (OSError, ValueError):
            return True


def refused(files: ChapterFiles, name: str, error: ChangedError) -> dict[str, Any]:
    """Return what a page is told whose change came too late: both texts, and the version that stands."""
    return {"error": str(error), "yours": error.yours} | files.told(name)
