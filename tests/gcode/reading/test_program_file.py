"""A program's file, taken in chunks."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from planner.errors import ProgramError
from planner.gcode.reading import program_file
from planner.gcode.reading.program_file import rows_of


def _values(path: Path) -> np.ndarray:
    """Return all rows of a file."""
    return np.concatenate([values for values, _ in rows_of(path)])


@pytest.mark.parametrize("chunk", [9, 10, 17])
def test_where_chunks_end_makes_no_difference(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, chunk: int) -> None:
    """Read 9, 10 or 17 bytes at a time, in the middle of words and line ends, the rows are those of the whole."""
    path = tmp_path / "a.gcode"
    path.write_bytes(b"G28\nG1 X12.5 Y-3 F1200 ; there\r\nG1 X0 E.5\nM104 S2")
    whole = _values(path)
    monkeypatch.setattr(program_file, "CHUNK_BYTES", chunk)

    np.testing.assert_array_equal(_values(path), whole)
    assert len(whole) == 4


def test_what_is_no_text_is_refused_in_one_sentence(tmp_path: Path) -> None:
    """Bytes of all values are no program."""
    path = tmp_path / "a.gcode"
    path.write_bytes(bytes(range(256)) * 8)

    with pytest.raises(ProgramError, match="not the text of a G-code program"):
        _values(path)


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    """The path stands in the sentence."""
    with pytest.raises(ProgramError, match="there is no such file"):
        _values(tmp_path / "none.gcode")
