"""Fixtures for all tests: one run measures each shipped mesh once, and nothing is kept from run to run."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock
from hypothesis import settings

from planner.job import Job, Material, Printer, Settings, read_job, read_material, read_printer, read_settings, shipped
from planner.mesh import Solid
from planner.plan import Plan, Prepared, make_plan, prepare
from tests.cache.in_run import in_run
from tests.shapes import written

settings.register_profile("same", derandomize=True, deadline=None)  # the same examples on every machine
settings.load_profile("same")
# Where a machine keeps no compiled code, each process that a test starts would compile the whole program anew.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


AFRESH = ("mesh", "survey", "layers", "packing", "schedule", "bench")
"""Rooms whose results are kept: their own tests compute everything afresh."""


@pytest.fixture(name="kept_in_run", scope="session")
def _kept_in_run(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder that all workers of this run share; what ``FITWRIGHT_MEASURED`` holds is measured already.

    ``.ci/run`` names the cache there of the demo that it has just planned with the same code. What tests pickle is always
    their own.
    """
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "kept"
    with FileLock(folder.with_suffix(".lock")):
        if not folder.exists():
            measured = os.environ.get("FITWRIGHT_MEASURED")
            shutil.copytree(measured, folder) if measured else folder.mkdir()
    return folder


@pytest.fixture(autouse=True)
def _kept(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch, kept_in_run: Path) -> None:
    """Keep what is measured for the rest of the run, but where measuring is what a test is about."""
    room = request.path.relative_to(Path(__file__).parent).parts[0]
    monkeypatch.setenv("FITWRIGHT_CACHE", "off" if room in AFRESH else str(kept_in_run))


@pytest.fixture(name="printer")
def _printer() -> Printer:
    return read_printer("bench-220", Path())


@pytest.fixture(name="petg")
def _petg() -> Material:
    return read_material("petg", Path())


@pytest.fixture(name="standard")
def _standard() -> Settings:
    return read_settings("standard-0.4", Path())


@pytest.fixture(name="heron", scope="session")
def _heron() -> Path:
    return shipped("sample_parts") / "heron" / "job.toml"


TODAY = date(2026, 12, 1)


@pytest.fixture(name="heron_ready", scope="session")
def _heron_ready(heron: Path, kept_in_run: Path) -> Prepared:
    """Prepare the Heron once for all tests that only look at it; a worker takes what another has prepared."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITWRIGHT_CACHE", str(kept_in_run))
        return in_run(kept_in_run, "heron ready", lambda: prepare(read_job(heron), TODAY))


@pytest.fixture(name="heron_plan", scope="session")
def _heron_plan(heron_ready: Prepared, kept_in_run: Path) -> Plan:
    """Plan the Heron once for all tests that only look at it, from what is prepared of it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITWRIGHT_CACHE", str(kept_in_run))
        return in_run(kept_in_run, "heron plan", lambda: make_plan(heron_ready))


MakeJob = Callable[..., Job]


@pytest.fixture(name="make_job")
def _make_job(tmp_path: Path) -> MakeJob:
    """Return a function that writes meshes and a job file beside each other and reads the job."""

    def make(text: str, **solids: Solid) -> Job:
        for name, solid in solids.items():
            written(solid, tmp_path / f"{name}.stl")
        (tmp_path / "job.toml").write_text(text, encoding="utf-8")
        return read_job(tmp_path / "job.toml")

    return make


@pytest.fixture(name="chromium", scope="session")
def _chromium() -> Iterator[Any]:
    """Yield a headless Chromium; where there is none, fail in CI and say so elsewhere."""
    found = os.environ.get("FITWRIGHT_CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        told = "no Chromium is installed (Debian: apt-get install chromium), or name one in FITWRIGHT_CHROMIUM"
        if os.environ.get("CI"):
            pytest.fail(told)
        pytest.skip(told)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        browser = driver.chromium.launch(
            executable_path=found, args=["--no-sandbox", "--enable-unsafe-swiftshader", "--lang=en"]
        )
        yield browser
        browser.close()
