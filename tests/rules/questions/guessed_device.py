"""A small device of which nobody said anything: two plates on screws, an axle, a cover with thin walls."""

from __future__ import annotations

from pathlib import Path

from planner.job import Job, job_of_folder, read_printer
from tests.shapes import Manifold, bored_plate, cylinder, solid_of, written


def guessed(folder: Path) -> Job:
    """Write the meshes into a folder and return its job."""
    folder.mkdir(exist_ok=True)
    holes: list[tuple[float, float, float, int]] = [
        (8, 8, 3.2, 48),
        (8, 22, 3.2, 48),
        (32, 8, 3.2, 48),
        (32, 22, 3.2, 48),
        (20, 15, 5.0, 64),
    ]
    box = Manifold.cube((40, 30, 12)) - Manifold.cube((38, 28, 12)).translate((1.0, 1.0, 1.5))
    solids = {
        "base": bored_plate(40, 30, 5, holes),
        "side": bored_plate(40, 30, 5, holes[:4]),
        "axle": solid_of(cylinder(5.0, 30.0, 64)),
        "tray": solid_of(box),
    }
    for name, solid in solids.items():
        written(solid, folder / f"{name}.stl")
    return job_of_folder(folder, printer=read_printer("bench-220", Path()), mesh_unit=None)
