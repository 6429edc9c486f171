"""``python -m tests.hostile.sameness [heron|invented] [RUNS]``: one job planned six times under all that ought not to matter.

One core and two, nothing kept and much kept, other orders of sets, time zones, languages and folders, and beside other
work. All files of the plan must be the same to the last byte.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from planner.job import shipped
from tests.shapes import ROOT, Manifold, bored_plate, cuboid, cylinder, solid_of, tube, written

HEAD = """[job]
name = "Sixty pieces"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
mesh_unit = "mm"

[plan]
start = 2026-12-01T17:30:00
deadline = 2026-12-24
"""
ZONES = ("Europe/Berlin", "UTC", "Asia/Tokyo", "America/Los_Angeles", "Pacific/Auckland", "Asia/Kolkata")
"""A run takes the first ones whose day is the same now: a plan of another day may differ."""
LANGUAGES = ("C", "C.utf8", "tr_TR.UTF-8", "de_DE.UTF-8", "POSIX", "hi_IN.UTF-8")


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What one run is made under; ``cache`` names the folder of what is kept, which a second run under it finds."""

    folder: str
    cache: str
    one_core: bool
    busy: bool


SETTINGS = (
    Setting(folder="one", cache="a", one_core=False, busy=False),
    Setting(folder="zwei ä", cache="a", one_core=True, busy=False),
    Setting(folder="3/deep/er", cache="b", one_core=True, busy=True),
    Setting(folder="4", cache="b", one_core=False, busy=True),
    Setting(folder="five five", cache="off", one_core=False, busy=True),
    Setting(folder="6", cache="a", one_core=False, busy=False),
)


def heron(folder: Path) -> None:
    """Lay the sample device into a folder."""
    shutil.copytree(Path(str(shipped("sample_parts"))) / "heron", folder)


def invented(folder: Path) -> None:
    """Lay six parts of ten copies into a folder, all made up: plates, a ring, a wedge, an angle."""
    folder.mkdir(parents=True)
    wedge = Manifold.hull_points([(0, 0, 0), (40, 0, 0), (0, 25, 0), (40, 25, 0), (0, 0, 14), (0, 25, 14)])
    parts = {
        "plate": bored_plate(46, 18, 4, [(8, 9, 3.4, 48), (38, 9, 3.4, 48)]),
        "ring": tube(60, 44, 6),
        "chip": solid_of(cylinder(30, 5, 64)),
        "wedge": solid_of(wedge),
        "angle": solid_of(Manifold.cube((50, 30, 5)) + Manifold.cube((50, 5, 30))),
        "block": cuboid(33, 21, 9),
    }
    for name, solid in parts.items():
        written(solid, folder / f"{name}.stl")
    rows = [f'\n[[part]]\nname = "{name}"\nmesh = "{name}.stl"\ncount = 10\nduty = "cover"\n' for name in parts]
    (folder / "job.toml").write_text(HEAD + "".join(rows), encoding="utf-8")


JOBS = {"heron": heron, "invented": invented}


def planned(base: Path, job: str, number: int) -> dict[str, bytes]:
    """Plan a job in a folder of its own under one setting, and return all files."""
    setting = SETTINGS[number % len(SETTINGS)]
    folder = base / str(number) / setting.folder
    folder.parent.mkdir(parents=True)
    JOBS[job](folder)
    day = datetime.now(ZoneInfo(ZONES[0])).date()
    zones = [zone for zone in ZONES if datetime.now(ZoneInfo(zone)).date() == day]
    environment = {
        **os.environ,
        "PYTHONHASHSEED": str(number + 1),
        "TZ": zones[number % len(zones)],
        "LC_ALL": LANGUAGES[number % len(LANGUAGES)],
        "FITWRIGHT_CACHE": setting.cache if setting.cache == "off" else str(base / setting.cache),
    }
    words = [sys.executable, "-m", "planner", "plan", str(folder / "job.toml"), "-o", str(folder / "plan"), "--quiet"]
    taskset = shutil.which("taskset")
    if setting.one_core and taskset:
        words = [taskset, "-c", str(min(os.sched_getaffinity(0))), *words]
    busy_n = 2 if setting.busy and os.getloadavg()[0] < 2 * (os.cpu_count() or 1) else 0  # others may load it enough
    beside = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(busy_n)]
    try:
        told = subprocess.run(words, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
    finally:
        for other in beside:
            other.kill()
            other.wait()
    assert told.returncode in (0, 1), told.stderr
    files = folder / "plan"
    return {path.relative_to(files).as_posix(): path.read_bytes() for path in files.rglob("*") if path.is_file()}


def differences(base: Path, job: str, runs: int) -> Iterator[tuple[int, int, list[str]]]:
    """Yield for each run after the first: its number, how many files it has, and which differ from the first's."""
    first = planned(base, job, 0)
    for number in range(1, runs):
        other = planned(base, job, number)
        yield number, len(other), sorted(n for n in first.keys() | other.keys() if first.get(n) != other.get(n))


def main() -> int:
    """Run, print what differs, and return whether anything does."""
    jobs = [word for word in sys.argv[1:] if word in JOBS] or list(JOBS)
    runs = next((int(word) for word in sys.argv[1:] if word.isdigit()), len(SETTINGS))
    base, bad = Path(tempfile.mkdtemp(prefix="same-")), False
    for job in jobs:
        begin = time.monotonic()
        for number, files_n, differ in differences(base / job, job, runs):
            bad = bad or bool(differ)
            print(f"{job} run {number + 1}: {files_n} files, {len(differ)} differ {differ[:6]}", flush=True)
        print(f"{job}: {runs} runs in {time.monotonic() - begin:.0f} s, in {base / job}", flush=True)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
