"""Write each plate as 3MF and STL, standing on z = 0 where the printer's bed is."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from planner.job import Bed
from planner.mesh import Solid, copy_at, write_3mf, write_stl
from planner.packing.files.read_back import compare, copies_in_3mf, copies_in_stl
from planner.packing.layout.plate import Plate

OURS = re.compile(r"plate-\d{2,}\.(3mf|stl)")
"""Names of files that only a plan writes."""


def plate_stem(number: int) -> str:
    """Return a plate's path without its ending, relative to the plan's folder.

    >>> plate_stem(3)
    'plates/plate-03'
    """
    return f"plates/plate-{number:02d}"


def write_plates(
    folder: Path, plates: tuple[Plate, ...], posed: Mapping[str, Solid], beds: Mapping[str, Bed] | None = None
) -> None:
    """Write every plate; ``posed`` are the parts at size in their poses, by name, ``beds`` those of the printers.

    Files are read back, every copy in them is compared with its placement, and must lie on its printer's bed. Plates
    that an earlier plan left in the folder are taken out: nobody should print those.

    Raises
    ------
    MeshError
        Where a file does not hold what was meant.
    """
    for plate in plates:
        stem = folder / plate_stem(plate.number)
        copies = [copy_at(f"{p.part} {p.copy}", posed[p.part], p.x_mm, p.y_mm, p.turn_deg) for p in plate.placements]
        stl, mf = stem.with_name(stem.name + ".stl"), stem.with_name(stem.name + ".3mf")
        triangles = write_stl(stl, [copy.at_place for copy in copies])  # a cut leaves facets that vanish in a file
        bed = (beds or {}).get(plate.printer)
        compare(stl, copies_in_stl(stl, plate.placements, triangles), plate.placements, triangles, bed)
        triangles = write_3mf(mf, copies)
        compare(mf, copies_in_3mf(mf), plate.placements, triangles, bed)
    kept = {plate_stem(plate.number).rpartition("/")[2] for plate in plates}
    for old in (folder / "plates").glob("plate-*.*"):
        if OURS.fullmatch(old.name) and old.stem not in kept:
            old.unlink()
