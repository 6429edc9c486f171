"""A corpus of broken files: of each, what is said."""

from __future__ import annotations

import shutil
import tomllib
from pathlib import Path

import pytest

from planner.errors import FitwrightError
from planner.mesh import Solid
from tests.hostile.readers import READERS, sound_files
from tests.shapes import DATA

BAD = DATA / "bad"
SAID: dict[str, str] = tomllib.loads((BAD / "said.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", SAID)
def test_a_broken_file_is_told_in_one_sentence(name: str, tmp_path: Path) -> None:
    """The place, what is wrong and what to do; a hold with the mesh's fault; or the one thing that it means."""
    path = BAD / name
    if path.name == "journal.json":  # a ledger is made beside it
        path = tmp_path / "export" / path.name
        path.parent.mkdir()
        shutil.copy(BAD / name, path)
    try:
        found = READERS[name.split("/", maxsplit=1)[0]](path)
    except FitwrightError as refused:
        assert SAID[name] in str(refused)
        assert str(refused).endswith(".")
        return
    told = f"hold: {'; '.join(found.faults)}" if isinstance(found, Solid) else "read"
    assert told == SAID[name]


def test_every_broken_file_has_its_row_and_every_reader_its_files() -> None:
    """None is forgotten."""
    files = {path.relative_to(BAD).as_posix() for path in BAD.rglob("*") if path.is_file()}

    assert files == {*SAID, "said.toml"}
    assert {name.split("/")[0] for name in SAID} == set(READERS) - {"readings"}


def test_what_the_fuzzer_begins_from_is_read(tmp_path: Path) -> None:
    """Damage to a file that is refused anyway would prove nothing."""
    for kind, files in sound_files(tmp_path).items():
        for path in files:
            if path.name != "full.toml" and path.suffix != ".nc":  # parts of a device, and programs of mills
                assert READERS[kind](path) is not None
