"""Commands that are killed: ``plan``, ``rebore`` and ``ledger``, each with what must hold whenever it ends."""

from __future__ import annotations

import contextlib
import hashlib
import json
import multiprocessing.process
import sqlite3
import sys
import time
from abc import ABC, abstractmethod
from collections.abc import Callable
from pathlib import Path

from planner.cli import main
from planner.ledger import made, opened, shown, told
from planner.whole_folder import files_in
from tests.ledger.telling import DAY, chapter
from tests.shapes import bored_plate, cuboid, written

Work = Callable[[], object]
JOB = """[job]
name = "small"
material = "petg"
mesh_unit = "mm"
[[part]]
name = "box"
mesh = "box.stl"
duty = "cover"
[[part]]
name = "plate"
mesh = "plate.stl"
count = 2
duty = "cover"
"""
PERCENTS = ("100", "110")


def command(*words: str) -> Work:
    """Return a run of the command line with these words."""

    def work() -> None:
        sys.argv = ["fitwright", *words]
        main()

    return work


class Scene(ABC):
    """A program in a folder of its own: how it begins, what must hold after any end, and the run after it."""

    writes: Callable[[], bool] | None = None

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True)
        self.folder, self.job = folder, folder / "job.toml"
        written(cuboid(30, 20, 5), folder / "box.stl")
        written(bored_plate(40, 20, 4, [(10, 10, 3.4, 48)]), folder / "plate.stl")
        self.job.write_text(JOB, encoding="utf-8")

    @abstractmethod
    def begin(self, number: int) -> Work:
        """Return the program that is killed."""

    def again(self, number: int) -> Work:
        """Return the program that comes after it."""
        return self.begin(number)

    def watched(self, after_s: float, end: Callable[[], None]) -> None:
        """Let it run for so long, then end it."""
        time.sleep(after_s)
        end()

    def answered(self, again: multiprocessing.process.BaseProcess) -> str:  # noqa: ARG002
        """Talk to the program that comes after, where it is one to talk to; return what is wrong."""
        return ""

    @abstractmethod
    def wrong_now(self) -> str:
        """Return what does not hold."""


class OutFolder(Scene):
    """A program that writes a folder, at one size and then at another: all files are of one of them."""

    words: tuple[str, ...] = ()
    listing = ""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.out, self.writes = folder / "out", self._twin
        self.out.mkdir()
        (self.out / "mine.txt").write_text("mine", encoding="utf-8")

    def begin(self, number: int) -> Work:
        """Run at one of two sizes."""
        words = [word.format(number % 3) for word in self.words]
        return command(words[0], str(self.job), "-o", str(self.out), "--scale", PERCENTS[number // 2 % 2], *words[1:])

    def _twin(self) -> bool:
        return any(self.folder.glob(".out.fitwright-*"))

    def wrong_now(self) -> str:
        """Return which files are not those that the listing tells, or that a person's own is not there."""
        there = files_in(self.out) - {"mine.txt"}
        if (self.out / "mine.txt").read_text(encoding="utf-8") != "mine":
            return "a person's file was changed"
        if not there:
            return ""
        if self.listing not in there:
            return f"no listing beside {sorted(there)}"
        rows = json.loads((self.out / self.listing).read_text(encoding="utf-8"))["files"]
        if set(rows) != there - {self.listing}:
            return f"a mix: {sorted(set(rows) ^ (there - {self.listing}))}"
        other = [
            name for name in rows if hashlib.sha256((self.out / name).read_bytes()).hexdigest() != rows[name]["sha256"]
        ]
        return f"other bytes than listed: {other}" if other else self._answer_wrong()

    def _answer_wrong(self) -> str:
        """Return what is wrong with the answer in JSON beside it."""
        for path in self.folder.glob("answer-*.json"):
            try:
                json.loads(path.read_text(encoding="utf-8"))
            except ValueError:
                return "half an answer"
        return ""


class PlanScene(OutFolder):
    """``plan`` with its answer in a file."""

    listing = "plates/manifest.json"

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.words = ("plan", "--json", str(folder / "answer.json"))


class ReboreScene(OutFolder):
    """``rebore`` with its answer in a file."""

    listing = "rebored.json"

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.words = ("rebore", "--json", str(folder / "answer.json"))


class LedgerScene(Scene):
    """A ledger that is told one thing after the other, backed up, exported and restored."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.ledger, self.acks, self.told_n = folder / "ledger.db", folder / "acks", 0
        engine = made(str(self.ledger))
        told(engine, chapter(), DAY)
        engine.dispose()
        self.acks.write_text("", encoding="utf-8")

    def begin(self, number: int) -> Work:
        """Tell it of ten things; each one is acknowledged by a line, then keep it in three ways."""
        return lambda: self._tell(number)

    def _tell(self, number: int) -> None:
        where = ["--ledger", str(self.ledger)]
        for step in range(10):
            name = f"item-{number}-{step}-{time.time_ns()}"
            self._done("bought", name, "1", *where)
            with self.acks.open("a", encoding="utf-8") as out:
                out.write(f"{name}\n")
        kept = str(self.folder / "kept.db")
        self._done("ledger", str(self.ledger), "backup", kept)
        self._done("ledger", str(self.ledger), "export", str(self.folder / "export"))
        self._done("ledger", str(self.ledger), "restore", kept)

    def _done(self, *words: str) -> None:
        """Run a command; it must end well."""
        try:
            command(*words)()
        except SystemExit as end:
            if end.code:
                raise

    def wrong_now(self) -> str:
        """Return what was acknowledged and is not there just once, or that the file is unsound."""
        engine = opened(str(self.ledger))
        try:
            stock = {row["name"]: row["n"] for row in shown(engine, "stock", DAY.date())}
        finally:
            engine.dispose()
        acked = [line for line in self.acks.read_text(encoding="utf-8").splitlines() if line]
        lost = [name for name in acked if stock.get(name) != 1]
        with contextlib.closing(sqlite3.connect(self.ledger)) as db:
            sound = db.execute("PRAGMA integrity_check").fetchone()[0]
        if lost or sound != "ok":
            return f"lost, or twice: {lost}; {sound}"
        return ""


COMMANDS: dict[str, Callable[[Path], Scene]] = {
    "plan": PlanScene,
    "ledger": LedgerScene,
    "rebore": ReboreScene,
}
"""By the command."""
