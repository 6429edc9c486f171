"""Write each plate as 3MF and STL, standing on z = 0 where the printer's bed is, with a manifest."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from planner.mesh import Solid, copy_at, write_3mf, write_stl
from planner.plates.plate import Plate


def plate_stem(number: int) -> str:
    """Return a plate's path without its ending, relative to the plan's folder.

    >>> plate_stem(3)
    'plates/plate-03'
    """
    return f"plates/plate-{number:02d}"


def write_plates(folder: Path, plates: tuple[Plate, ...], posed: Mapping[str, Solid]) -> None:
    """Write every plate; ``posed`` are the parts at size in their poses, by name. Files are read back and compared."""
    for plate in plates:
        stem = folder / plate_stem(plate.number)
        copies = [copy_at(f"{p.part} {p.copy}", posed[p.part], p.x_mm, p.y_mm, p.turn_deg) for p in plate.placements]
        write_stl(stem.with_name(stem.name + ".stl"), [copy.at_place for copy in copies])
        write_3mf(stem.with_name(stem.name + ".3mf"), copies)


def manifest(folder: Path, names: tuple[str, ...]) -> str:
    """Return the SHA-256 and the size of files in a folder, as JSON text."""
    rows = {
        name: {"sha256": hashlib.sha256(raw).hexdigest(), "bytes": len(raw)}
        for name in names
        for raw in [(folder / name).read_bytes()]
    }
    return json.dumps({"schema": "fitwright/manifest/1", "files": rows}, indent=1) + "\n"
