"""The manifest tells what a program wrote from what people did."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.packing import MANIFEST, list_anew, manifest, untouched_files


def _folder(base: Path) -> Path:
    """Write two files with their manifest."""
    (base / "plates").mkdir()
    for name in ("a", "b"):
        (base / name).write_text(name, encoding="utf-8")
    (base / MANIFEST).write_text(manifest(base, ("a", "b")), encoding="utf-8")
    return base


def test_what_somebody_changed_or_laid_there_is_not_ours(tmp_path: Path) -> None:
    """Untouched are the listed files that still hold the same bytes, and the manifest itself."""
    folder = _folder(tmp_path)
    (folder / "b").write_text("changed", encoding="utf-8")
    (folder / "note").write_text("mine", encoding="utf-8")

    assert untouched_files(folder) == {"a", MANIFEST}


def test_what_the_program_writes_later_is_ours_again(tmp_path: Path) -> None:
    """Papers that a release stamps are listed anew; a folder without a manifest gets none."""
    folder = _folder(tmp_path)
    (folder / "b").write_text("stamped", encoding="utf-8")
    list_anew(folder, ["b"])

    assert untouched_files(folder) == {"a", "b", MANIFEST}
    list_anew(folder / "plates", [])
    assert not (folder / "plates" / MANIFEST).exists()


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"files": 3}', '{"files": {"a": {}}}', "\udcff"])
def test_a_manifest_that_is_none_makes_nothing_ours(text: str, tmp_path: Path) -> None:
    """Where it cannot be read, every file counts as people's: nothing is taken out."""
    folder = _folder(tmp_path)
    (folder / MANIFEST).write_bytes(text.encode("utf-8", "surrogateescape"))

    assert untouched_files(folder) == frozenset()
    list_anew(folder, ["a"])
    assert (folder / MANIFEST).read_bytes() == text.encode("utf-8", "surrogateescape")
