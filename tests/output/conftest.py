"""Planned jobs of ours, their papers, and a real browser to open their reports in."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright import sync_api

from planner.job import Job, job_of_folder, read_job, read_printer, with_changes
from planner.output import SIZES, Sheet, bench_papers, head_of, html, page, write_papers, write_plan
from planner.plan import Plan, Prepared, make_plan, prepare
from planner.remedy import Remedies
from tests.cache.in_run import in_run
from tests.conftest import TODAY, MakeJob
from tests.output.opened_page import AS_OPENED, Opened
from tests.shapes import cuboid

BARE = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
MakePlan = Callable[..., Plan]


@pytest.fixture(name="plan", scope="session")
def _plan(heron_plan: Plan) -> Plan:
    return heron_plan


@pytest.fixture(name="sheets", scope="session")
def _sheets(plan: Plan) -> dict[str, Sheet]:
    return {sheet.name: sheet for sheet in bench_papers(plan, SIZES["a4"])}


@pytest.fixture(name="paper_texts", scope="session")
def _paper_texts(plan: Plan) -> dict[str, str]:
    """Return the Heron's papers as HTML, by their file's name."""
    return html(bench_papers(plan, SIZES["a4"]), head_of(plan), SIZES["a4"])


@pytest.fixture(name="heron_folder", scope="session")
def _heron_folder(plan: Plan, tmp_path_factory: pytest.TempPathFactory, kept_in_run: Path) -> Path:
    """Write the Heron's whole folder once: papers, one of somebody's own among them, then the report that names them."""
    folder = tmp_path_factory.mktemp("heron")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITWRIGHT_CACHE", str(kept_in_run))
        write_papers(plan, folder)
        (folder / "bench" / "more & 100 % #1.html").write_text("a paper of somebody's own", encoding="utf-8")
        write_plan(plan, folder)
    return folder


@pytest.fixture(name="make_plan_of")
def _make_plan_of(make_job: MakeJob) -> MakePlan:
    """Return a function that plans a small job of one cuboid, with more tables in it."""

    def made(more: str = "", text: str = BARE) -> Plan:
        return make_plan(prepare(make_job(text + more, a=cuboid(60, 40, 5)), TODAY))

    return made


JOBS = ("heron", "child", "folder")
BARE_MESHES = ("buckle.3mf", "cap.stl", "cover.stl", "knob.stl", "link.stl", "pulley.stl", "saddle.stl")
"""Meshes of the Heron that make a job of their own: slots, bores, a pocket, a groove and a shell are among them."""


class Reports:
    """Jobs of ours by name, planned once in a run, and checked at any size as the command line would."""

    def __init__(self, heron: Path, folder: Path, kept: Path, heron_plan: Callable[[], Plan]) -> None:
        """Keep what is needed to make them; the Heron's plan is made where it is asked for."""
        self.heron, self.folder, self.kept, self.heron_plan = heron, folder, kept, heron_plan
        self._plans: dict[str, Plan] = {}
        self._pages: dict[str, Path] = {}

    def job(self, name: str) -> Job:
        """Return a job: the Heron, a device for a small child with parts at scales of their own, or bare meshes."""
        if name == "heron":
            return read_job(self.heron)
        if name == "child":
            return read_job(self._child())
        bare = self.folder / "bare"
        if not bare.exists():
            bare.mkdir()
            for mesh in BARE_MESHES:
                shutil.copy(self.heron.parent / "parts" / mesh, bare)
        return job_of_folder(bare, printer=read_printer("bench-220", Path()))

    def _child(self) -> Path:
        """Write the second job: no percent but a measure, age two, two parts of their own scales.

        How it moves, which the Heron's own page has, is left out, and so few things are wrong that few remedies are tried:
        both were most of the time. Of its parts under load three are left, one at a scale of its own.
        """
        there = self.folder / "child"
        if not there.exists():
            shutil.copytree(self.heron.parent, there)
            before, moves = self.heron.read_text(encoding="utf-8").split("# --- how it moves")
            text = before + moves[moves.index("# --- parts that meet") :]
            text = re.sub(r"(?m)^(path|drives|from|grip_at_mm|equaliser|force_n|rate_n_per_mm) = .*\n", "", text)
            for old, new in (
                ("percent = 106.5\n", ""),
                ("recipient_mm = 58.0", "recipient_mm = 47.3"),
                ("recipient_age_years = 9", "recipient_age_years = 2\nmouthing = true"),
                ("pull_n = 220.0", "pull_n = 150.0"),
                (
                    'mesh = "parts/knob.stl"\ncount = 1\nhanded = false\nscale = "job"',
                    'mesh = "parts/knob.stl"\nscale = 100.0',
                ),
                (
                    'mesh = "parts/link.stl"\ncount = 2\nhanded = false\nscale = "job"',
                    'mesh = "parts/link.stl"\ncount = 2\nscale = [100.0, 98.0, 100.0]',
                ),
            ):
                assert old in text, old
                text = text.replace(old, new)
            for loaded in ("deck", "pulley", "bracket-left", "bracket-right", "yoke", "anchor", "buckle"):
                head, tail = text.split(f'name = "{loaded}"\nmesh', 1)
                text = f'{head}name = "{loaded}"\nmesh' + tail.replace('duty = "load"', 'duty = "cover"', 1)
            (there / "job.toml").write_text(text, encoding="utf-8")
        return there / "job.toml"

    def prepared(self, name: str, percent: float | None = None) -> Prepared:
        """Return a job prepared, at its own size or at one that is tried, as ``check --scale`` does."""
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("FITWRIGHT_CACHE", str(self.kept))
            return prepare(with_changes(self.job(name), percent=percent), TODAY)

    def plan(self, name: str) -> Plan:
        """Return a job's plan; the child's without remedies, which the two other pages have: five sixths of its time."""
        if name == "heron":
            return self.heron_plan()
        if name not in self._plans:
            with pytest.MonkeyPatch.context() as patch:
                patch.setenv("FITWRIGHT_CACHE", str(self.kept))
                self._plans[name] = in_run(self.kept, f"{name} plan", lambda: make_plan(self._ready(name)))
        return self._plans[name]

    def _ready(self, name: str) -> Prepared:
        """Return a job prepared for its plan, the child's as if none of its remedies had been proved."""
        ready = self.prepared(name)
        if name == "child":
            ready.once("remedies", Remedies)
        return ready

    def page(self, name: str) -> Path:
        """Return a job's page as a file."""
        if name not in self._pages:
            self._pages[name] = self.folder / f"{name}.html"
            with pytest.MonkeyPatch.context() as patch:
                patch.setenv("FITWRIGHT_CACHE", str(self.kept))
                text = in_run(self.kept, f"{name} page", lambda: page(self.plan(name)))
            self._pages[name].write_text(text, encoding="utf-8")
        return self._pages[name]


@pytest.fixture(name="reports", scope="session")
def _reports(
    request: pytest.FixtureRequest, heron: Path, tmp_path_factory: pytest.TempPathFactory, kept_in_run: Path
) -> Reports:
    def heron_plan() -> Plan:
        plan: Plan = request.getfixturevalue("heron_plan")
        return plan

    return Reports(heron, tmp_path_factory.mktemp("reports"), kept_in_run, heron_plan)


READ = {
    "Page": ("evaluate", "inner_text", "text_content"),
    "Locator": ("all_inner_texts", "all_text_contents", "inner_text", "text_content"),
}
"""What reads words from a page, by the classes of playwright's sync_api."""


def _any_space(read: Any) -> Any:
    """Return what was read with every fixed space as a plain one, in lists and records too."""
    if isinstance(read, str):
        return read.replace("\u00a0", " ")
    if isinstance(read, list):
        return [_any_space(one) for one in read]
    return {key: _any_space(one) for key, one in read.items()} if isinstance(read, dict) else read


@pytest.fixture(autouse=True, scope="module")
def _spaces_as_spaces() -> Iterator[None]:
    """Read fixed spaces as plain ones: a page binds numbers to their units by them, which looks/ tests."""
    with pytest.MonkeyPatch.context() as patch:
        for name, methods in READ.items():
            of = getattr(sync_api, name)
            for method in methods:
                read = getattr(of, method)
                patch.setattr(of, method, lambda *a, _read=read, **more: _any_space(_read(*a, **more)))
        yield


@pytest.fixture(name="opened")
def _opened(chromium: Any, reports: Reports) -> Iterator[Any]:
    """Yield a function that opens a job's page in a tab of its own; afterwards nothing may have gone wrong."""
    contexts = []
    pages: list[Opened] = []

    def open_page(name: str, width: int = 1280, height: int = 800, **more: Any) -> Opened:
        context = chromium.new_context(viewport={"width": width, "height": height}, **more)
        contexts.append(context)
        pages.append(Opened(context.new_page(), reports.page(name)))
        return pages[-1]

    yield open_page
    for one in pages:
        assert one.wrong == []
        assert one.outside == []
    for context in contexts:
        context.close()


@pytest.fixture(name="shared_pages", scope="session")
def _shared_pages() -> dict[tuple[str, int], Opened]:
    """Return the pages that tests share, by job and width: to open one takes two seconds of a core."""
    return {}


@pytest.fixture(name="shared")
def _shared(chromium: Any, reports: Reports, shared_pages: dict[tuple[str, int], Opened]) -> Iterator[Any]:
    """Yield a function that gives a job's page as it is when opened, for tests that only move what can be put back.

    Afterwards nothing may have gone wrong, as with a page of one's own.
    """
    asked: list[Opened] = []

    def give(name: str, width: int = 1280) -> Opened:
        if (name, width) not in shared_pages:
            context = chromium.new_context(viewport={"width": width, "height": 800})
            there = shared_pages[name, width] = Opened(context.new_page(), reports.page(name))
            there.tab.evaluate(AS_OPENED)
        else:
            there = shared_pages[name, width]
            there.put_back(width, 800)
        asked.append(there)
        return there

    yield give
    for one in asked:
        assert one.wrong == []
        assert one.outside == []
