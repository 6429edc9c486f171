"""A file written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.whole_file import whole


def test_a_block_that_ends_badly_leaves_what_was_there_and_nothing_beside_it(tmp_path: Path) -> None:
    """The old text stands; the one that ends well takes its place, with the mode that was asked for."""
    path = tmp_path / "a.txt"
    path.write_text("old", encoding="utf-8")
    with pytest.raises(FileNotFoundError), whole(path) as aside:
        aside.write_bytes((tmp_path / "missing").read_bytes())

    assert path.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [path]
    with whole(path, 0o600) as aside:
        aside.write_text("new", encoding="utf-8")

    assert path.read_text(encoding="utf-8") == "new"
    assert path.stat().st_mode & 0o777 == 0o600
    assert list(tmp_path.iterdir()) == [path]
