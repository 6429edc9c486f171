"""Kept plans: asked again about the same, the same folder is written without work; whatever changes is planned again."""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

import planner
from planner.cli import kept_answer
from planner.cli.app import app
from planner.cli.load_job import load
from planner.cli.plan.kept_plan import Into, WholePlan, kept_plan
from planner.job import Language
from planner.job.program_stamp import libraries
from planner.packing import manifest
from planner.whole_file import write_text
from planner.whole_folder import MANIFEST, untouched_files
from tests.shapes import cuboid, written

JOB = """[job]
name = "x"
material = "petg"
printer = "own.toml"
mesh_unit = "mm"

[[part]]
name = "a"
mesh = "a.stl"
duty = "cover"
"""
PROFILE = Path(planner.__file__).parents[1] / "profiles" / "printers" / "bench-220.toml"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder with a job, its mesh and a printer of its own, and a cache of its own."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path / "cache"))
    written(cuboid(20, 20, 20), tmp_path / "a.stl")
    (tmp_path / "own.toml").write_bytes(PROFILE.read_bytes())
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    return tmp_path


Plans = Callable[..., int]


@pytest.fixture
def plans(here: Path) -> Plans:
    """Return what plans the job into a folder, and says how often it was worked out so far."""
    worked: list[int] = []

    def planning(name: str = "out", language: Language | None = None, **asked: object) -> int:
        folder = here / name

        def work(into: Into) -> int:
            worked.append(1)
            with into(folder, untouched_files) as twin:
                for path, text in (("report.html", "a page"), ("plan.json", "{}"), (MANIFEST, "")):
                    (twin / path).parent.mkdir(exist_ok=True)
                    (twin / path).unlink(missing_ok=True)
                    (twin / path).write_text(text or manifest(twin, ["report.html", "plan.json"]), encoding="utf-8")
            print(f"go\n\nreport: {folder / 'report.html'}\npapers")
            return 0

        assert kept_plan(load(here / "job.toml", language=language), folder, "", asked, work) == 0
        return len(worked)

    return planning


def test_the_same_plan_is_written_without_work(plans: Plans, here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The same words and files, into another folder too; files that are there already are not written again."""
    assert plans() == 1
    first, before = capsys.readouterr().out, (here / "out" / "report.html").stat()
    assert plans() == 1
    assert capsys.readouterr().out == first
    assert (here / "out" / "report.html").stat() == before

    assert plans("other") == 1
    assert capsys.readouterr().out == first.replace("/out/", "/other/")
    files = {path.relative_to(here / "out") for path in (here / "out").rglob("*")}
    assert {path.relative_to(here / "other") for path in (here / "other").rglob("*")} == files
    assert untouched_files(here / "other") == untouched_files(here / "out") == {"report.html", "plan.json", MANIFEST}


def test_what_is_missing_is_written_again_and_what_is_peoples_stays(plans: Plans, here: Path) -> None:
    """A file that somebody took away or wrote into comes back, one that was laid beside it stays."""
    plans()
    (here / "out" / "plan.json").unlink()
    (here / "out" / "report.html").write_text("scribbled", encoding="utf-8")
    (here / "out" / "mine.txt").write_text("mine", encoding="utf-8")
    assert plans() == 1
    assert (here / "out" / "plan.json").read_text() == "{}"
    assert (here / "out" / "report.html").read_text() == "a page"
    assert (here / "out" / "mine.txt").read_text() == "mine"


@pytest.mark.parametrize("name", ["../outside", "/outside-of-all", "a/../../outside", "C:/outside", "..\\outside", ""])
def test_a_planted_entry_writes_nothing_outside_the_folder(
    name: str, plans: Plans, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An entry with a sound checksum and a path that leads elsewhere is no plan: it is planned again (CWE-22)."""
    assert plans() == 1
    planted = WholePlan(files={name: b"planted", MANIFEST: b"{}", "plan.json": b"{}"}, text="go", code=0)
    monkeypatch.setattr("planner.cli.plan.kept_plan.found", lambda *_: (planted,))
    before = {path for path in here.rglob("*") if "cache" not in path.parts}

    assert plans() == 2
    assert {path for path in here.rglob("*") if "cache" not in path.parts} == before
    assert not Path("/outside-of-all").exists()


def test_a_damaged_entry_is_planned_again(plans: Plans, here: Path) -> None:
    """Each byte of the entry is flipped in turn, or it is cut short: never another file, never another word."""
    plans()
    there = {path.name: path.read_bytes() for path in (here / "out").rglob("*") if path.is_file()}
    (entry,) = (here / "cache").glob("*/whole-plan/*")
    sound, worked = entry.read_bytes(), 1
    for at in range(0, len(sound), len(sound) // 24):
        entry.write_bytes(sound[:at] + bytes([sound[at] ^ 0x10]) + sound[at + 1 :] if at % 2 else sound[:at])
        worked += 1
        assert plans() == worked
        assert {path.name: path.read_bytes() for path in (here / "out").rglob("*") if path.is_file()} == there


def _replaced(path: Path, old: str, new: str) -> None:
    """Replace a text in a file."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


CHANGES: dict[str, Callable[[Path], object]] = {
    "a mesh": lambda here: written(cuboid(20, 20, 21), here / "a.stl"),
    "the job": lambda here: _replaced(here / "job.toml", '"cover"', '"load"'),
    "a remark in the job": lambda here: _replaced(here / "job.toml", "[job]", "# a remark\n[job]"),
    "a profile": lambda here: _replaced(here / "own.toml", "height_mm = 240.0", "height_mm = 239.0"),
    "a record that was filled in": lambda here: write_text(here / "out" / "bench" / "record.toml", "by = 'me'"),
    "readings that were filled in": lambda here: write_text(here / "out" / "coupon" / "readings.toml", "a = 1"),
}


@pytest.mark.parametrize("what", CHANGES)
def test_a_changed_file_is_planned_again(what: str, plans: Plans, here: Path) -> None:
    """Meshes, job, profiles, and what people have filled in; then it is kept again."""
    assert plans() == 1
    CHANGES[what](here)
    assert plans() == 2
    assert plans() == 2


def test_another_day_language_option_or_program_is_planned_again(
    plans: Plans, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The day, the papers' language and size, a question proved meanwhile, a changed program, a width."""
    assert plans() == 1
    assert plans(language="de") == 2
    assert plans(paper="letter") == 3
    monkeypatch.setenv("COLUMNS", "50")
    assert plans() == 4

    class Tomorrow(date):
        @classmethod
        def today(cls) -> Any:
            return date(2099, 1, 1)

    monkeypatch.setattr(kept_answer, "date", Tomorrow)
    assert plans() == 5
    monkeypatch.setattr(kept_answer, "program_stamp", lambda: "another")
    assert plans() == 6
    monkeypatch.chdir(here)
    assert plans() == 7


def test_a_library_of_another_version_is_another_program(tmp_path: Path) -> None:
    """Letters, pages and numbers come from libraries: their names hold the version (PyPA, recording installed projects)."""
    (tmp_path / "reportlab-4.4.0.dist-info").mkdir()
    before = libraries((str(tmp_path), str(tmp_path / "none")))
    (tmp_path / "reportlab-4.4.0.dist-info").rename(tmp_path / "reportlab-4.5.0.dist-info")
    assert before == ["reportlab-4.4.0.dist-info"] != libraries((str(tmp_path),))


opened: list[str] | None = None


def _note(event: str, facts: tuple[Any, ...]) -> None:
    """Note a file that is opened."""
    if opened is not None and event == "open" and isinstance(facts[0], str):
        opened.append(facts[0])


def test_every_file_that_a_plan_reads_is_in_its_key(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the command opens beside the program is the job, its meshes, what the job names, and its own folder.

    Python tells of every file that is opened (PEP 578). The second command writes the same bytes without work.
    """
    global opened  # noqa: PLW0603  an audit hook cannot be taken away
    sys.addaudithook(_note)
    monkeypatch.chdir(here)
    opened = []
    first = CliRunner().invoke(app, ["plan", "job.toml", "-o", "out"])
    read, opened = opened, None
    assert first.exit_code in (0, 1), first.output
    mine = {Path(name).resolve() for name in read if Path(name).resolve().is_relative_to(here)}
    inputs = {path for path in mine if path.is_file() and not path.is_relative_to(here / "out")}
    assert {path.name for path in inputs if not path.is_relative_to(here / "cache")} == {
        "job.toml",
        "a.stl",
        "own.toml",
    }

    monkeypatch.setattr("planner.cli.plan.kept_plan.keep", None)  # nothing is planned again
    second = CliRunner().invoke(app, ["plan", "job.toml", "-o", "again", "--json", "told.json"])
    assert second.output == first.output.replace("out/report", "again/report")
    files = sorted(path.relative_to(here / "out") for path in (here / "out").rglob("*") if path.is_file())
    assert all((here / "out" / name).read_bytes() == (here / "again" / name).read_bytes() for name in files)
    assert (here / "told.json").read_bytes() == (here / "out" / "plan.json").read_bytes()
