"""Ratios against peers, measured in one run in one process: ``python -m tests.bench --json - [--only NAME]``."""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import trimesh

from planner.job import read_printer
from planner.layers.motion import move_times_s
from planner.layers.section import sections_of
from planner.program import measure
from planner.survey.walls import walls_of
from tests.bench.plates import PLATE_BENCHES
from tests.shapes import Manifold, solid_of

Row = dict[str, object]


def timed(work: Callable[[], object], times: int = 3) -> float:
    """Return the shortest time of a few runs in seconds."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def row(name: str, ours: float, peer: str, theirs: float, size: str) -> Row:
    """Return one row; ``ratio`` is the peer's time over ours, per the same work."""
    return {"name": name, "ours_s": ours, "peer": peer, "peer_s": theirs, "ratio": theirs / ours, "size": size}


def thickness() -> Row:
    """Time a thickness point against trimesh's."""
    solid = solid_of(Manifold.sphere(20, 160) - Manifold.sphere(18, 160))
    ours = timed(lambda: walls_of(solid, ())) / len(walls_of(solid, ()).thickness_mm)
    peer: Any = trimesh.proximity.thickness
    points = solid.corners_mm[:20].mean(axis=1)
    normals = solid.trimesh.face_normals[:20]
    theirs = timed(lambda: peer(solid.trimesh, points, normals=normals), 1) / len(points)
    return row("thickness per point", ours, "trimesh.proximity.thickness", theirs, f"{solid.triangles_n} triangles")


def slicing() -> Row:
    """Time sections to clean polygons against trimesh's."""
    solid = solid_of(Manifold.sphere(20, 120) - Manifold.cube((10, 10, 60), True))
    heights = np.linspace(-15, 15, 40)
    ours = timed(lambda: [section.to_polygons() for section in sections_of(solid, heights)[0]])

    def theirs() -> None:
        found = solid.trimesh.section_multiplane([0, 0, 0], [0, 0, 1], heights)
        for section in found:
            _ = section.polygons_full if section is not None else None

    return row(
        "sections", ours, "trimesh.section_multiplane", timed(theirs, 1), f"{solid.triangles_n} triangles, 40 layers"
    )


def motion() -> Row:
    """Time moves against a plain loop of rest-to-rest trapezoids in Python."""
    rng = np.random.default_rng(1)
    path, limits = np.cumsum(rng.normal(size=(200_001, 2)), axis=0), np.full(200_000, 60.0)
    ours = timed(lambda: move_times_s(path, limits, 1500.0, 0.02, 0.0))
    lengths = np.linalg.norm(np.diff(path[:20_001], axis=0), axis=1)

    def plain() -> float:
        return float(sum(d / 60 + 60 / 1500 if d >= 2.4 else 2 * (d / 1500) ** 0.5 for d in lengths))

    return row("moves (200,000)", ours, "plain Python, no look-ahead", 10 * timed(plain), "200,000 moves")


def program() -> Row:
    """Time reading a G-code program and measuring it against only splitting its lines to numbers in plain Python."""
    text = "M83\nM104 S200\nG1 Z0.2 F6000\n" + "".join(
        f"G1 X{110 + 50 * np.cos(k / 50):.3f} Y{110 + 50 * np.sin(k / 50):.3f} E0.03 F2400\n" for k in range(200_000)
    )
    printer = read_printer("bench-220", Path())
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.gcode"
        path.write_text(text)
        ours = timed(lambda: measure(path, printer))
        theirs = timed(lambda: [[float(w[1:]) for w in line.split() if w[0] in "GXYZEF"] for line in path.open()], 1)
    size = f"{len(text) / 1e6:.1f} MB, ours {len(text) / 1e6 / ours:.0f} MB/s"
    return row("program read and measured", ours, "plain Python, words only", theirs, size)


BENCHES = {"thickness": thickness, "slicing": slicing, "motion": motion, "program": program, **PLATE_BENCHES}


def main() -> None:
    """Run the benchmarks that were asked for."""
    words = argparse.ArgumentParser()
    words.add_argument("--json", default="")
    words.add_argument("--only", choices=sorted(BENCHES))
    asked = words.parse_args()
    rows = [bench() for name, bench in BENCHES.items() if asked.only in (None, name)]
    if asked.json == "-":
        sys.stdout.write(json.dumps(rows, indent=1) + "\n")
        return
    for each in rows:
        print(f"{each['name']}: {each['ratio']:.3g} times {each['peer']} ({each['size']})")


if __name__ == "__main__":
    main()
