"""Benches of workers: so many surveys on one process of a cluster, and on two, in one run."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from planner.cores import ahead, on_workers
from planner.survey import survey
from tests.cli.conftest import JOB
from tests.shapes import bored_plate, cuboid, written
from tests.survey.drawn.curved_meshes import torus, wavy_shell

TRIANGLES_N = 50_000
SURVEYS_N = 12
"""In the bench; ``python -m tests.bench.worker_speed 200`` measures 200."""


def two_workers(surveys_n: int = SURVEYS_N) -> list[dict[str, object]]:
    """Time surveys of meshes of some 50,000 triangles each, no two the same; the peer is one worker."""
    meshes = [(wavy_shell if n % 2 else torus)(TRIANGLES_N + 97 * n) for n in range(surveys_n)]
    took = dict[str, float]()
    before = os.environ.get("FITWRIGHT_CACHE")
    try:
        for workers in ("1", "2"):
            with tempfile.TemporaryDirectory() as kept, on_workers(workers):
                os.environ["FITWRIGHT_CACHE"] = kept
                ahead(survey, meshes[:2])  # each process has loaded the program
                begun = time.monotonic()
                ahead(survey, meshes[2:])
                took[workers] = time.monotonic() - begun
    finally:
        os.environ.pop("FITWRIGHT_CACHE", None)
        if before is not None:
            os.environ["FITWRIGHT_CACHE"] = before
    return [
        {
            "name": "surveys on two workers",
            "ours_s": took["2"],
            "peer": "one worker",
            "peer_s": took["1"],
            "ratio": took["1"] / took["2"],
            "size": f"{surveys_n - 2} surveys of {TRIANGLES_N} triangles and more",
        }
    ]


def same_bytes() -> list[dict[str, object]]:
    """Check, window and plan of a small job, each with an empty cache: the same JSON here and on two workers.

    The peer is this process alone; so small a job is sent for longer than it is judged.
    """
    took, told = dict[str, float](), dict[str, list[bytes]]()
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        written(bored_plate(40, 30, 4, []), home / "base.stl")
        written(cuboid(30, 20, 4), home / "block.stl")
        (home / "job.toml").write_text(JOB, encoding="utf-8")
        for where in ("", "2"):
            begun, said = time.monotonic(), list[bytes]()
            for command in (("check",), ("window",), ("plan", "-o", home / f"plan{where}")):
                words = [*command, home / "job.toml", "--json", home / "told.json", "-q", "--workers", where]
                here = {**os.environ, "FITWRIGHT_CACHE": str(home / f"cache{where}")}
                subprocess.run([sys.executable, "-m", "planner", *map(str, words)], env=here, check=False)
                said.append((home / "told.json").read_bytes())
            took[where], told[where] = time.monotonic() - begun, said
    assert told[""] == told["2"]
    size = "check, window, plan of two parts: the same bytes"
    row = {"name": "answers on two workers", "ours_s": took["2"], "peer": "one process", "peer_s": took[""]}
    return [{**row, "ratio": took[""] / took["2"], "size": size}]


WORKER_BENCHES = {"workers": two_workers, "workers-same": same_bytes}

if __name__ == "__main__":
    print(two_workers(int(sys.argv[1]) if len(sys.argv) > 1 else SURVEYS_N)[0])
