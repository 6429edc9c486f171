"""A chapter's house with sound files of every kind, and what a damaged copy of each is handed to by the command line."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import cv2
import numpy as np
from PIL import Image

from planner.job import shipped
from planner.ledger import made, told
from planner.packing import MANIFEST
from tests.cli.small_chapter import CHAPTER
from tests.hostile.mutants import altered, mutated
from tests.hostile.readers import sound_files
from tests.ledger.telling import DAY, chapter
from tests.photo.rendered import photo, shot
from tests.shapes import bored_plate, cuboid, written

JOB = """[job]
name = "blocks and a base"
recipient = "R-07"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
limits = "standard"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "base"
mesh = "base.stl"
duty = "cover"
[[part]]
name = "block"
mesh = "block.stl"
count = 2
duty = "cover"
[[padding]]
part = "base"
thickness_mm = 3.0
outline = "pad.svg"
[plan]
start = 2027-12-01T17:30:00
coupon = "never"
"""
ANSWERS = """bores-3.4-through = "nothing"
"""
PROFILE = {"printer": "bench-220", "material": "petg", "settings": "standard-0.4", "limits": "standard"}
"""What the small job names; a damaged file stands in its place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One damaged file with what lies beside it, and the words of the command that it is handed to."""

    kind: str
    path: Path
    words: list[str]


Lay = Callable[[Path, Path, random.Random], list[str]]


def house(folder: Path) -> dict[str, list[Path]]:
    """Fill a folder with sound files and return them by kind; the manifest is there once its small job is planned."""
    sound = sound_files(folder / "sound")
    small = folder / "small"
    small.mkdir()
    written(bored_plate(40, 30, 4, [(8, 8, 3.4, 48), (30, 8, 3.4, 48)]), small / "base.stl")
    written(cuboid(30, 20, 4), small / "block.stl")
    shutil.copy(Path(str(shipped("sample_parts"))) / "heron" / "cuff-padding.svg", small / "pad.svg")
    (small / "job.toml").write_text(JOB, encoding="utf-8")
    engine = made(str(folder / "sound" / "book.db"))
    told(engine, chapter(), DAY)
    engine.dispose()
    made(str(folder / "sound" / "empty.db")).dispose()
    for name, text in {"chapter.toml": CHAPTER, "answers.toml": ANSWERS}.items():
        (folder / "sound" / name).write_text(text, encoding="utf-8")
    return sound | {
        "job": [*sound["job"], small / "job.toml"],
        "outline": [small / "pad.svg"],
        "chapter": [folder / "sound" / "chapter.toml"],
        "answers": [folder / "sound" / "answers.toml"],
        "book": [folder / "sound" / "book.db"],
        "photo": _photos(folder / "sound"),
        "manifest": [small / "plan" / MANIFEST],
    }


def laid(kind: str, source: Path, home: Path, folder: Path, draw: random.Random, *, whole: bool = False) -> Case:
    """Lay a damaged copy (or a ``whole`` one) of a sound file into a new folder, and say what it is handed to."""
    folder.mkdir()
    path = folder / source.name
    data = source.read_bytes() if whole else _damaged(source, draw)
    if kind == "job":  # its meshes stand where they stood
        data = re.sub(rb'"([\w/-]+\.(stl|3mf|svg))"', b'"' + bytes(source.parent) + rb'/\1"', data)
    path.write_bytes(data)
    return Case(kind=kind, path=path, words=HANDED[kind](path, home, draw))


def _damaged(source: Path, draw: random.Random) -> bytes:
    """Return a file's bytes damaged; words mostly so that they still read, which leads further in."""
    in_words = source.suffix in (".toml", ".csv", ".svg", ".json")
    return (altered if in_words and draw.random() < 0.6 else mutated)(source.read_bytes(), draw)


def _photos(folder: Path) -> list[Path]:
    """Write a photo of the card as PNG and as JPEG with Exif."""
    draw = np.random.default_rng(3)
    grey = cv2.resize(photo(shot(draw), draw), (800, 600), interpolation=cv2.INTER_AREA)
    exif, raw = Image.Exif(), BytesIO()
    exif[0x0112] = 6
    exif.get_ifd(0x8769)[0xA405] = 26
    Image.fromarray(grey).save(raw, "JPEG", exif=exif)
    (folder / "arm.jpg").write_bytes(raw.getvalue())
    Image.fromarray(grey).save(folder / "arm.png", exif=exif)
    return [folder / "arm.jpg", folder / "arm.png"]


def _with_profile(kind: str) -> Lay:
    """Return how the small job is laid beside a profile of a kind, which it names."""

    def lay(path: Path, home: Path, draw: random.Random) -> list[str]:
        text = JOB.replace(f'{kind} = "{PROFILE[kind]}"', f'{kind} = "{path.name}"')
        _copied(home, path.parent, text)
        return [draw.choice(("check", "check", "settings", "window")), "job.toml"]

    return lay


def _copied(home: Path, folder: Path, text: str) -> None:
    """Copy the meshes of the small job into a folder, with a job file of this text."""
    for name in ("base.stl", "block.stl", "pad.svg"):
        if not (folder / name).exists():
            shutil.copy(home / "small" / name, folder / name)
    (folder / "job.toml").write_text(text, encoding="utf-8")


def _outline(path: Path, home: Path, _: random.Random) -> list[str]:
    """Lay the padding's drawing beside the job that names it."""
    _copied(home, path.parent, JOB)
    return ["check", "job.toml"]


def _job(path: Path, _: Path, draw: random.Random) -> list[str]:
    """Check a job; a small one is asked for its settings and sizes, too."""
    many = ("check", "settings", "window") if "heron" not in path.read_bytes().decode("latin-1") else ("check",)
    return [draw.choice(many), path.name]


def _answers(path: Path, home: Path, _: random.Random) -> list[str]:
    """Take answers into a job that is there."""
    _copied(home, path.parent, JOB)
    return ["start", ".", "--answers", path.name]


def _record(path: Path, home: Path, _: random.Random) -> list[str]:
    """Put a record where the small job's plan has it."""
    _copied(home, path.parent, JOB)
    shutil.copytree(home / "small" / "plan", path.parent / "plan")
    path.replace(path.parent / "plan" / "bench" / path.name)
    return ["release", "job.toml"]


def _chapter(path: Path, home: Path, draw: random.Random) -> list[str]:
    """Begin a ledger with a chapter's file, fill one from it, or plan the chapter."""
    words = draw.choice(
        (["ledger", "new.db", "init"], ["ledger", "ledger.db", "fill", "chapter.toml"], ["chapter", "."])
    )
    shutil.copy(home / "sound" / "book.db", path.with_name("ledger.db"))
    if words[0] == "chapter":
        (path.parent / "r07").mkdir()
        _copied(home, path.parent / "r07", JOB)
    return words


def _book(path: Path, _: Path, draw: random.Random) -> list[str]:
    """Show a ledger, ask it, carry it or tell it something."""
    views = [
        ["ledger", path.name, "show", view] for view in ("plates", "spools", "recipients", "stock", "due", "printers")
    ]
    told_it = [["done", "R-07.1", "--ledger", path.name], ["weighed", "S-1", "212", "--ledger", path.name]]
    more = [["ledger", path.name, *words] for words in (["recall", "L-9"], ["export", "out"], ["backup", "kept.db"])]
    return draw.choice([*views, *told_it, *more, ["ledger", path.name, "upgrade"], ["ledger", path.name, "learned"]])


def _program(path: Path, home: Path, draw: random.Random) -> list[str]:
    """Let the job learn from a program, or compare it with the plan."""
    _copied(home, path.parent, JOB)
    return [draw.choice(("learn", "learn", "audit")), path.name, "--job", "job.toml"]


def _journal(path: Path, home: Path, _: random.Random) -> list[str]:
    """Import an export into a new ledger."""
    shutil.copy(home / "sound" / "empty.db", path.with_name("other.db"))
    return ["ledger", "other.db", "import", "."]


def _manifest(path: Path, home: Path, _: random.Random) -> list[str]:
    """Plan again into a folder whose manifest is damaged."""
    _copied(home, path.parent, JOB)
    shutil.copytree(home / "small" / "plan", path.parent / "plan")
    path.replace(path.parent / "plan" / MANIFEST)
    return ["plan", "job.toml", "-o", "plan"]


HANDED: dict[str, Lay] = {
    "mesh": lambda path, _, draw: draw.choice((["inspect", path.name], ["start", "."])),
    "job": _job,
    **{kind: _with_profile(kind) for kind in PROFILE},
    "outline": _outline,
    "log": lambda path, *_: ["calibrate", "--log", path.name, "-o", "mine.toml"],
    "readings": lambda path, *_: ["calibrate", path.name, "-o", "mine.toml"],
    "program": _program,
    "journal": _journal,
    "answers": _answers,
    "record": _record,
    "chapter": _chapter,
    "book": _book,
    "photo": lambda path, *_: ["photo", path.name, "--points", "300,250,500,300", "--round"],
    "manifest": _manifest,
}
"""What a file of each kind is handed to, in a folder with all that it needs."""
