"""What the cache keeps, and what it makes anew."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

from planner import __version__
from planner.cache import kept, key_of


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a cache folder of this test's own."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    return tmp_path


def test_an_entry_that_changed_on_the_disk_is_made_anew(base: Path) -> None:
    """A flipped bit, an entry of another key, a plain pickle and an empty file never become an answer."""
    one, other = key_of("one"), key_of("other")
    kept("room", one, lambda: (1.0, 2.0))
    kept("room", other, lambda: "another type")
    folder = base / __version__ / "room"
    sound = (folder / one).read_bytes()
    flipped = bytes([*sound[:-9], sound[-9] ^ 1, *sound[-8:]])
    for bad in (flipped, (folder / other).read_bytes(), pickle.dumps("planted"), b""):
        (folder / one).write_bytes(bad)

        assert kept("room", one, lambda: (1.0, 2.0)) == (1.0, 2.0)
        assert (folder / one).read_bytes() == sound


def test_what_is_kept_is_not_made_twice(base: Path) -> None:
    """The second asking reads the file."""
    made = []
    for _ in range(2):
        kept("room", "key", lambda: made.append(1))

    assert made == [1]
    assert len(list(base.rglob("key"))) == 1
