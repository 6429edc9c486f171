"""What the cache keeps, what it makes anew, and what it lets go."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import msgspec
import pytest

from planner import __version__
from planner.cache import clear, entries, kept, key_of, keys_in, most_bytes, store
from planner.cache.record_bytes import shape_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """A record with a number and a text."""

    length_mm: float
    name: str = ""


class Planted:
    """What runs a command when it is unpickled."""

    def __reduce__(self) -> tuple[object, tuple[str]]:
        """Tell the unpickler to run a command."""
        return os.system, ("touch planted",)


SOUND = Sample(length_mm=2.0, name="jaw")


@pytest.fixture(name="base")
def _base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a cache folder of this test's own, in which the test stands."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(store, "_WRITTEN", {})
    return tmp_path


def test_an_entry_that_changed_on_the_disk_is_made_anew(base: Path) -> None:
    """A flipped bit, an entry of another key, a pickle that runs a command, one with a fresh sum, and an empty file."""
    one, other = key_of("one"), key_of("other")
    kept("room", one, Sample, lambda: SOUND)
    kept("room", other, str, lambda: "another type")
    folder = base / __version__ / "room"
    sound = (folder / one).read_bytes()
    summed = {
        data: store._sum(f"room/{one}/".encode() + shape_of(Sample), memoryview(data)) + data
        for data in (pickle.dumps(Planted()), msgspec.msgpack.encode("text"), msgspec.msgpack.encode({"name": "x"}))
    }
    flipped = [sound[:n] + bytes([sound[n] ^ 1 << n % 8]) + sound[n + 1 :] for n in range(len(sound))]
    for bad in (*flipped, (folder / other).read_bytes(), pickle.dumps(Planted()), b"", sound[:-1], *summed.values()):
        (folder / one).write_bytes(bad)

        assert kept("room", one, Sample, lambda: SOUND) == SOUND
        assert (folder / one).read_bytes() == sound
    assert not (base / "planted").exists()


def test_what_is_kept_is_not_made_twice(base: Path) -> None:
    """The second asking reads the file; an entry of the same key and another kind is not taken for it."""
    made: list[int] = []

    def make() -> Sample:
        made.append(1)
        return SOUND

    for _ in range(2):
        assert kept("room", key_of("key"), Sample, make) == SOUND
    assert made == [1]
    assert kept("room", key_of("key"), float, lambda: 3.0) == 3.0
    assert keys_in("room") == (key_of("key"),)
    assert len([path for path in base.rglob("*") if path.is_file()]) == 1


def test_the_first_answer_is_that_of_all_later_ones(base: Path) -> None:
    """A whole number where a fraction is declared is a fraction from the first run on."""
    first, later = (kept("room", key_of("a"), Sample, lambda: Sample(length_mm=2)) for _ in range(2))

    assert repr(first) == repr(later) == "Sample(length_mm=2.0, name='')"
    assert base.exists()


def test_the_folder_stays_within_its_size(base: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was used last stays, what was not used goes first, and a file that is nobody's entry is left alone."""
    monkeypatch.setenv("FITWRIGHT_CACHE_MB", "0.01")
    own = base / "photos" / "2026" / "holiday.jpg"
    own.parent.mkdir(parents=True)
    own.write_bytes(bytes(20000))
    used = kept("room", key_of("used"), str, lambda: "u" * 1000)
    for n in range(30):
        kept("room", key_of(n), str, lambda: "x" * 1000)
        path = base / __version__ / "room" / key_of(n)
        os.utime(path, (n + 1.0, n + 1.0))
        assert kept("room", key_of("used"), str, lambda: "made again") == used

    assert sum(entry.size_bytes for entry in entries()) <= most_bytes()
    assert {key_of("used"), key_of(29)} < set(keys_in("room"))
    assert key_of(0) not in keys_in("room")
    assert own.exists()


def test_what_a_killed_program_left_is_no_entry_and_goes(base: Path) -> None:
    """A file that was being written is not told as a key; an hour later it is cleared away."""
    names = ("tmpleft", f".{key_of('b')[:40]}.fitwright-0a1b2c3d-77-x_y", "tmpfresh")
    *left, fresh = (base / __version__ / "room" / name for name in names)
    fresh.parent.mkdir(parents=True)
    for half in (*left, fresh):
        half.write_bytes(b"half")
    for half in left:
        os.utime(half, (1.0, 1.0))
    kept("room", key_of("a"), int, lambda: 1)

    assert keys_in("room") == (key_of("a"),)
    assert [half.exists() for half in (*left, fresh)] == [False, False, True]


def test_clearing_takes_a_room_or_all(base: Path) -> None:
    """Entries of the named room go, then all."""
    for room in ("survey", "layers"):
        kept(room, key_of(room), int, lambda: 1)

    assert [entry.room for entry in clear(("survey",))] == ["survey"]
    assert [entry.room for entry in entries()] == ["layers"]
    assert len(clear()) == 1
    assert not list(entries())
    assert base.exists()


def test_the_key_is_the_same_in_every_run() -> None:
    """A set of names gives one key, in whatever order a run of Python goes through it."""
    told = {
        subprocess.run(
            [sys.executable, "-c", "from planner.cache import key_of; print(key_of(frozenset('abcdefgh'), 1.5))"],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }

    assert len(told) == 1


def test_a_size_that_is_no_number_is_the_usual_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """Words, less than nothing and infinity set no size."""
    for stated in ("much", "-1", "inf", "nan", ""):
        monkeypatch.setenv("FITWRIGHT_CACHE_MB", stated)
        assert most_bytes() == store.SIZE_MB * 1e6
