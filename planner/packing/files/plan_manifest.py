"""The manifest of a plan's folder: what the program wrote there, by checksum; all else is people's own."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from pathlib import Path

from planner.packing.layout.plate import Plate
from planner.whole_file import write_text
from planner.whole_folder import MANIFEST, told_in


def manifest(folder: Path, names: Iterable[str], plates: Sequence[Plate] = ()) -> str:
    """Return the SHA-256 and the size of files in a folder, as JSON text; and the order of what is printed in turn."""
    rows = {
        name: {"sha256": hashlib.sha256(raw).hexdigest(), "bytes": len(raw)}
        for name in names
        for raw in [(folder / name).read_bytes()]
    }
    turns = {plate.file: [f"{p.part} {p.copy}" for p in plate.placements] for plate in plates if plate.in_turn}
    more = {"one_after_another": turns} if turns else {}
    return json.dumps({"schema": "fitwright/manifest/1", "files": rows, **more}, indent=1) + "\n"


def list_anew(folder: Path, names: Iterable[str]) -> None:
    """Write the checksums of files again that a program wrote after the plan; nothing where no manifest can be read."""
    told = told_in(folder)
    if told is not None:
        told["files"].update(json.loads(manifest(folder, names))["files"])
        write_text(folder / MANIFEST, json.dumps(told, indent=1) + "\n")
