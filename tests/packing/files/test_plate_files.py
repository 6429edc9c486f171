"""Plates as files: two a plate, read back, and what an earlier plan left is taken out."""

from __future__ import annotations

from pathlib import Path

from planner.packing import write_plates
from planner.packing.files.plate_files import plate_stem
from tests.packing.files.test_read_back import BODY, PLACES
from tests.packing.part_sets import one_plate


def test_plates_of_an_earlier_plan_are_taken_out(tmp_path: Path) -> None:
    """A plan of one plate leaves one plate in the folder; what is not ours stays."""
    plate = one_plate(PLACES)
    (tmp_path / "plates").mkdir()
    for name in ("plate-07.stl", "plate-07.3mf", "plate-notes.txt"):
        (tmp_path / "plates" / name).write_text("old", encoding="utf-8")
    write_plates(tmp_path, (plate,), {"a": BODY})

    names = sorted(path.name for path in (tmp_path / "plates").iterdir())
    assert names == ["plate-01.3mf", "plate-01.stl", "plate-notes.txt"]


def test_plates_are_numbered_so_that_they_sort() -> None:
    """Two digits at least: plate 2 stands before plate 12."""
    assert sorted([plate_stem(12), plate_stem(2)]) == [plate_stem(2), plate_stem(12)]
