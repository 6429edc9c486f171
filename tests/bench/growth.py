"""``python -m tests.bench.growth [KIND]...``: processor time and memory of whole commands as jobs and meshes grow.

Kinds: ``check`` and ``plan`` of many parts, ``inspect`` of many triangles, ``chapter`` of many recipients with 25 parts
each; ``check:60`` is one size alone. A chapter of 500 is told by the growth between the two largest that ran. Each runs in a
fork of a parent that has loaded the rooms, with an empty cache; the memory is the fork's peak, what was loaded included.
``exponent``: what power of the size the time grew with since the row above; above 1.2 it wants a look.

Chapters as measured on an AMD EPYC of two cores, shared, 2026-11-30: 2 recipients 30.5 s and 483 MB, 4 recipients
54.0 s and 531 MB, exponent 0.83; 8 recipients 119.7 s and 626 MB, exponent 1.15. An extrapolation, not run: 500
recipients of 25 parts take about 13,900 s by that last exponent, and 7,500 s if time grew in proportion from here.
"""

from __future__ import annotations

import math
import os
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import numpy as np

from planner.cli import main as command_line
from tests.hostile.by_command import loaded
from tests.shapes import bored_plate, written
from tests.survey.drawn.curved_meshes import torus

PARTS = (10, 25, 60, 120, 300)
TRIANGLES = (10_000, 100_000, 200_000, 500_000, 2_000_000, 5_000_000)
RECIPIENTS = (2, 4, 8, 16)
PARTS_EACH, RECIPIENTS_FAR = 25, 500
HEAD = """[job]
name = "many simple pieces"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
mesh_unit = "mm"
[size]
percent = 100.0
[plan]
start = 2027-12-01T17:30:00
coupon = "never"
"""


def many_parts(folder: Path, n: int) -> list[str]:
    """Lay a job of so many different bored plates, each fifth under load, joined in pairs by screws."""
    text = [HEAD]
    for number in range(n):
        wide, deep = 24 + number * 7 % 31 + number / 1000.0, 14 + number * 5 % 17
        written(bored_plate(wide, deep, 4, [(6, 7, 3.4, 32), (wide - 6, 7, 3.4, 32)]), folder / f"p{number}.stl")
        duty = "load" if number % 5 == 0 else "cover"
        text.append(f'[[part]]\nname = "p{number}"\nmesh = "p{number}.stl"\nduty = "{duty}"\n')
        if number % 2:
            about = 'kind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\nfit = "held"\nnut = "plain"'
            text.append(f'[[hardware]]\nname = "s{number}"\n{about}\njoins = ["p{number - 1}", "p{number}"]\n')
    (folder / "job.toml").write_text("".join(text), encoding="utf-8")
    return ["job.toml"]


def many_recipients(folder: Path, n: int) -> list[str]:
    """Lay a chapter of so many recipients with devices of 25 parts, each at a size of its own."""
    for number in range(n):
        home = folder / f"r{number}"
        home.mkdir()
        many_parts(home, PARTS_EACH)
        text = (home / "job.toml").read_text(encoding="utf-8")
        own = f"percent = {98.0 + number % 40 / 10.0:.1f}"
        text = text.replace("percent = 100.0", own).replace("[size]", f'recipient = "R-{number + 1:03}"\n[size]')
        (home / "job.toml").write_text(text, encoding="utf-8")
    return ["."]


def many_triangles(folder: Path, n: int) -> list[str]:
    """Lay a ring of so many triangles; as it is: our own writer reads back what it wrote, in five times the memory."""
    ring = torus(n)
    rows = np.zeros(len(ring.faces), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])
    rows["corners"] = ring.vertices_mm[ring.faces]
    (folder / "ring.stl").write_bytes(bytes(80) + np.uint32(len(rows)).tobytes() + rows.tobytes())
    return ["ring.stl"]


KINDS: dict[str, tuple[Callable[[Path, int], list[str]], tuple[int, ...]]] = {
    "check": (many_parts, PARTS),
    "plan": (many_parts, PARTS),
    "inspect": (many_triangles, TRIANGLES),
    "chapter": (many_recipients, RECIPIENTS),
}


def spent(words: list[str], cwd: Path) -> tuple[int, float, float]:
    """Run a command in a fork; return its code, its processor seconds and its peak memory in MB (Linux counts in kB)."""
    pid = os.fork()
    if pid == 0:
        os.chdir(cwd)
        os.environ["FITWRIGHT_CACHE"] = str(cwd / "cache")
        for number in (1, 2):
            os.dup2(os.open(cwd / f"said-{number}", os.O_WRONLY | os.O_CREAT), number)
        sys.argv = ["fitwright", *words]
        try:
            command_line()
        except SystemExit as end:
            os._exit(int(str(end.code or 0)))
        os._exit(0)
    _, status, used = os.wait4(pid, 0)
    return os.waitstatus_to_exitcode(status), used.ru_utime + used.ru_stime, used.ru_maxrss / 1024.0


def main() -> int:
    """Print one row a size."""
    loaded()
    print("command    size     code  cpu s     MB  exponent", flush=True)
    for word in sys.argv[1:] or tuple(KINDS):
        kind, _, only = word.partition(":")
        lay, sizes = KINDS[kind]
        before: tuple[int, float] | None = None
        for n in (int(only),) if only else sizes:
            with tempfile.TemporaryDirectory(prefix="growth-") as place:
                words = [kind, *lay(Path(place), n), *(("-o", "out") if kind in ("plan", "chapter") else ())]
                code, cpu_s, memory_mb = spent(words, Path(place))
            power = math.log(cpu_s / before[1]) / math.log(n / before[0]) if before else math.nan
            print(f"{kind:8} {n:8} {code:6} {cpu_s:7.1f} {memory_mb:6.0f} {power:9.2f}", flush=True)
            if kind == "chapter" and before and n == sizes[-1]:
                print(far_row(before, (n, cpu_s)), flush=True)
            before = n, cpu_s
    return 0


def far_row(before: tuple[int, float], last: tuple[int, float]) -> str:
    """Return the row of a chapter of 500 recipients, by the growth from one size to the next: reckoned, not run.

    >>> far_row((8, 40.0), (16, 80.0))
    'chapter       500 reckoned  2500.0 s by exponent 1.00'
    """
    power = math.log(last[1] / before[1]) / math.log(last[0] / before[0])
    cpu_s = last[1] * (RECIPIENTS_FAR / last[0]) ** power
    return f"chapter  {RECIPIENTS_FAR:8} reckoned {cpu_s:7.1f} s by exponent {power:.2f}"


if __name__ == "__main__":
    sys.exit(main())
