"""The manifest of a plan's folder: what the program wrote there, by checksum; all else is people's own."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from pathlib import Path

from planner.packing.layout.plate import Plate
from planner.whole_file import whole

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


def untouched_files(folder: Path) -> frozenset[str]:
    """Return the files of a plan's folder that its manifest lists and nobody has changed since."""
    try:
        rows = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))["files"]
        listed = {str(name): row["sha256"] for name, row in rows.items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return frozenset()
    same = {name for name, sha in listed.items() if _sha256(folder / name) == sha}
    return frozenset(same | {MANIFEST})


def _sha256(path: Path) -> str:
    """Return a file's checksum; empty where it cannot be read."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def list_anew(folder: Path, names: Iterable[str]) -> None:
    """Write the checksums of files anew that a program wrote after the plan; nothing where there is no manifest."""
    path = folder / MANIFEST
    if not path.is_file():
        return
    told = json.loads(path.read_text(encoding="utf-8"))
    told["files"].update(json.loads(manifest(folder, names))["files"])
    with whole(path) as aside:
        aside.write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")
