"""The manifest of a plan's folder: what the program wrote there, by checksum; all else is people's own."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from planner.packing.layout.plate import Plate
from planner.whole_file import write_text

MANIFEST = "plates/manifest.json"


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


def untouched_files(folder: Path, at: str = MANIFEST) -> frozenset[str]:
    """Return the files of a folder that its manifest, which lies ``at`` a path in it, lists and nobody has changed."""
    told = _told(folder, at)
    if told is None:
        return frozenset()
    same = {name for name, row in told["files"].items() if _sha256(folder / name) == row["sha256"]}
    return frozenset(same | {at})


def list_anew(folder: Path, names: Iterable[str]) -> None:
    """Write the checksums of files again that a program wrote after the plan; nothing where no manifest can be read."""
    told = _told(folder)
    if told is not None:
        told["files"].update(json.loads(manifest(folder, names))["files"])
        write_text(folder / MANIFEST, json.dumps(told, indent=1) + "\n")


def _told(folder: Path, at: str = MANIFEST) -> dict[str, Any] | None:
    """Return what a folder's manifest tells; None where there is none, or it is damaged."""
    try:
        told: dict[str, Any] = json.loads((folder / at).read_text(encoding="utf-8"))
        return told if all(isinstance(row["sha256"], str) for row in told["files"].values()) else None
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def _sha256(path: Path) -> str:
    """Return a file's checksum; empty where it cannot be read."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""
