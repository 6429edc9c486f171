"""Kept layouts: found again under their content, never where the record has changed its fields."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.job import Bed
from planner.packing import Group, Item, pack
from planner.packing.layout import packed_groups as batch_module

BED = Bed(shape="rectangle", size_mm=(200.0, 200.0), height_mm=200.0, margin_mm=5.0)
SQUARE = ((0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0))


def test_a_layout_of_other_fields_is_found_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A plate kept before a field was added would lack it: its key names the fields, so that it is not asked for."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    group = Group(material="petg", colour="any", support=False, brim_mm=0.0)
    items = [Item(part="a", copies=2, rings=(SQUARE,), group=group)]

    def packed() -> int:
        pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=1.0)
        return len(list(tmp_path.glob("*/plates/*")))

    assert packed() == 1
    assert packed() == 1
    monkeypatch.setattr(batch_module, "RECORD", batch_module.RECORD[:-1])
    assert packed() == 2
