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
from manifold3d import CrossSection

from planner.gcode import measure
from planner.job import read_printer
from planner.layers.head_motion import move_times_s
from planner.layers.lines.section import sections_of
from planner.mesh import Solid, read_solid
from planner.survey.walls.walls import walls_of
from tests.bench.cut_shears import STRENGTH_BENCHES
from tests.bench.growing import GROWING_BENCHES
from tests.bench.movements import MOVEMENT_BENCHES
from tests.bench.pages import PAGE_BENCHES
from tests.bench.plates import PLATE_BENCHES
from tests.bench.surveys import SURVEY_BENCHES
from tests.bench.worker_speed import WORKER_BENCHES
from tests.shapes import Manifold, solid_of

Row = dict[str, object]
HERON = Path(__file__).parents[2] / "sample_parts" / "heron" / "parts"


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


def slicing() -> list[Row]:
    """Time sections to clean polygons against trimesh's, on four meshes; the areas must agree within 0.01 %."""
    meshes = {
        "ball": solid_of(Manifold.sphere(20, 120) - Manifold.cube((10, 10, 60), True)),
        "torus": solid_of(Manifold.revolve(CrossSection.circle(8, 96).translate((20, 0)), 240)),
        "cuff": read_solid(HERON / "cuff.stl"),
        "guide": read_solid(HERON / "guide.stl"),
    }
    return [_sliced(name, solid) for name, solid in meshes.items()]


def _sliced(name: str, solid: Solid) -> Row:
    """Time sections of one mesh at 60 heights."""
    low, high = solid.bounds_mm[:, 2]
    heights = np.linspace(low, high, 62)[1:-1] + 1e-4
    flat: list[list[Any]] = []
    mine: list[float] = []

    def ours() -> None:
        sections = sections_of(solid, heights)[0]
        mine[:] = [float(section.area()) for section in sections if section.to_polygons()]

    def theirs() -> None:
        found = solid.trimesh.section_multiplane([0, 0, 0], [0, 0, 1], heights)
        flat[:] = [list(section.polygons_full) for section in found if section is not None]

    fast, slow = timed(ours), timed(theirs, 1)
    area, peer = sum(mine), sum(polygon.area for layer in flat for polygon in layer)
    off = 100 * abs(area / peer - 1)
    if off > 0.01:
        raise SystemExit(f"the sections of {name} differ by {off:.3f} % of their area")
    size = f"{solid.triangles_n} triangles, {len(heights)} layers, areas within {off:.4f} %"
    return row(f"sections: {name}", fast, "trimesh.section_multiplane and polygons_full", slow, size)


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
        path.write_text(text, encoding="utf-8")
        ours = timed(lambda: measure(path, printer))
        theirs = timed(lambda: [[float(w[1:]) for w in line.split() if w[0] in "GXYZEF"] for line in path.open()], 1)
    size = f"{len(text) / 1e6:.1f} MB, ours {len(text) / 1e6 / ours:.0f} MB/s"
    return row("program read and measured", ours, "plain Python, words only", theirs, size)


BENCHES: dict[str, Callable[[], Row | list[Row]]] = {
    "thickness": thickness,
    "slicing": slicing,
    "motion": motion,
    "program": program,
    **PLATE_BENCHES,
    **SURVEY_BENCHES,
    **WORKER_BENCHES,
    **MOVEMENT_BENCHES,
    **STRENGTH_BENCHES,
    **GROWING_BENCHES,
    **PAGE_BENCHES,
}


def main() -> None:
    """Run the benchmarks that were asked for."""
    words = argparse.ArgumentParser()
    words.add_argument("--json", default="")
    words.add_argument("--only", choices=sorted(BENCHES))
    asked = words.parse_args()
    found = [bench() for name, bench in BENCHES.items() if asked.only in (None, name)]
    rows: list[Row] = [each for one in found for each in (one if isinstance(one, list) else [one])]
    if asked.json == "-":
        sys.stdout.write(json.dumps(rows, indent=1) + "\n")
        return
    for each in rows:
        print(f"{each['name']}: {each['ratio']:.3g} times {each['peer']} ({each['size']})")


if __name__ == "__main__":
    main()
