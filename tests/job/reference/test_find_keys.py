"""The reference of keys is what the readers know: no key more, none less, and needed means needed."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from copy import deepcopy
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import tomlkit

from planner.errors import CommandError, FitwrightError, JobError
from planner.job import (
    NEEDED,
    KeyTable,
    key_tables,
    matching,
    read_job,
    read_limits,
    read_material,
    read_printer,
    read_settings,
    shipped,
)
from tests.shapes import cuboid, written

TABLES = {table.name: table for table in key_tables()}
JOB: dict[str, Any] = {
    "job": {"name": "x"},
    "size": {"measure": [{"name": "m", "kind": "width", "recipient_mm": 60.0, "device_mm": 60.0}]},
    "part": [{"name": "a", "mesh": "a.stl"}, {"name": "b", "mesh": "a.stl"}],
    "hardware": [
        {"name": "h", "kind": "nut", "diameter_mm": 3.0, "joins": ["a"], "other_bores": [{"part": "a", "bore_mm": 3.4}]}
    ],
    "gap": [{"between": ["a", "b"]}],
    "open": [{"name": "o", "parts": ["a"], "bore_mm": 20.0}],
    "joint": [{"between": ["a", "b"], "how": "glued"}],
    "cord": [{"name": "c", "part": "a", "diameter_mm": 1.0}],
    "strap": [{"name": "s", "part": "a", "webbing_mm": 20.0}],
    "padding": [{"part": "a", "thickness_mm": 3.0, "area_mm2": 100.0}],
    "work": [{"part": "a", "kind": "drill", "to_mm": 3.2, "drawn_mm": 3.0}],
    "place": [{"part": "a"}],
    "point": [{"part": "a", "name": "hook", "at_mm": [1.0, 2.0, 3.0]}],
    "drive": {"joint": "wrist"},
    "spool": [{"material": "petg"}],
    "hands": {},
    "use": {},
    "settings": {},
    "plan": {"weigh": {"change": 1.0}},
    "override": [{"rule": "size.stale", "role": "lead", "reason": "measured again"}],
}
"""A job file with every table and only what is needed in each."""
JOB_TABLES = [name for name, table in TABLES.items() if table.file == "job.toml" and name != "size.measure.device"]
PROFILES: dict[str, tuple[str, str, Callable[[str, Path], object]]] = {
    "printer": ("printers/bench-220.toml", "", read_printer),
    "printer.bed": ("printers/bench-220.toml", "bed", read_printer),
    "printer.undersize": ("printers/bench-220.toml", "undersize", read_printer),
    "printer.calibrated_for": ("printers/bench-220.toml", "calibrated_for", read_printer),
    "printer.goes_on": ("printers/bench-220.toml", "goes_on", read_printer),
    "material": ("materials/petg.toml", "", read_material),
    "settings-profile": ("settings/standard-0.4.toml", "", read_settings),
    "limits": ("limits/standard.toml", "", read_limits),
}
INSIDE = {
    "printer": {"bed", "undersize", "power_w", "calibrated_for", "goes_on", "fails_by"},
    "material": {"strength_mpa"},
    "limits": {name.removeprefix("limits.") for name in TABLES if name.startswith("limits.")},
    "printer.undersize": {"upright_low_mm", "upright_high_mm", "lying_low_mm", "lying_high_mm"},
}
"""Keys of a reader that are tables of their own in the reference, or told in the sentence above a table."""
EITHER = {
    "bore_mm",
    "device_mm",
    "device",
    "corner_deviation_mm",
    "corner_speed_mm_s",
    "size_mm",
    "diameter_mm",
    "area_mm2",
    "drawn_mm",
}
"""One of two is needed; the reference says so in words."""


def _known(read: Callable[[], object]) -> set[str]:
    """Return the keys that a reader knows, from what it says of one that it does not."""
    with pytest.raises(FitwrightError) as refused:
        read()
    assert "qqqqqqqq" in refused.value.where, refused.value
    return set(refused.value.todo.split("known here: ")[1].rstrip(".").split(", "))


def _place(job: dict[str, Any], name: str) -> dict[str, Any]:
    """Return the table of a job that a name of the reference means."""
    found: Any = job
    for word in name.split("."):
        found = found[word][0] if isinstance(found[word], list) else found[word]
    return found  # type: ignore[no-any-return]


def _job(tmp_path: Path, job: dict[str, Any]) -> Callable[[], object]:
    """Return a reader of a job file."""
    written(cuboid(30, 20, 10), tmp_path / "a.stl")
    path = tmp_path / "job.toml"
    path.write_text(tomlkit.dumps(job), encoding="utf-8")
    return lambda: read_job(path)


def _profile(tmp_path: Path, name: str) -> tuple[dict[str, Any], dict[str, Any], Callable[[], object]]:
    """Return a shipped profile, the table in it that a name means, and its reader, as a file of a user's own."""
    file, inner, read = PROFILES[name]
    whole: dict[str, Any] = tomllib.loads((shipped("profiles") / file).read_text(encoding="utf-8"))
    whole.setdefault("calibrated_for", {"material": "petg", "nozzle_mm": 0.4, "taken": date(2026, 11, 1)})
    whole.setdefault("goes_on", {"share_percent": 10.0, "mark_s": 60.0, "resume_s": 60.0})
    if not file.startswith("printers"):
        del whole["calibrated_for"], whole["goes_on"]

    def own() -> object:
        (tmp_path / "own.toml").write_text(tomlkit.dumps(whole), encoding="utf-8")
        return read("own.toml", tmp_path)

    return whole, whole[inner] if inner else whole, own


@pytest.fixture(autouse=True)
def _whole_lists(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let refusals list every known key: these tests read them from there."""
    monkeypatch.setattr("planner.errors.LISTED_N", 999)


@pytest.mark.parametrize("name", JOB_TABLES)
def test_a_table_of_the_job_file_has_the_keys_that_its_reader_knows(name: str, tmp_path: Path) -> None:
    """Each table is given a key that nobody knows; the refusal lists those that the reader asked for."""
    job = deepcopy(JOB)
    _place(job, name)["qqqqqqqq"] = 1
    known = _known(_job(tmp_path, job))

    assert {key.name for key in TABLES[name].keys} == known - {"measure"}


def test_the_list_of_tables_is_that_of_the_job_reader(tmp_path: Path) -> None:
    """No table of a job file is missing in the reference."""
    known = _known(_job(tmp_path, {**deepcopy(JOB), "qqqqqqqq": 1}))

    assert {name.split(".")[0] for name in JOB_TABLES} == known


@pytest.mark.parametrize("name", JOB_TABLES)
def test_only_what_is_needed_is_refused_when_it_is_missing(name: str, tmp_path: Path) -> None:
    """The job above, which has the needed keys alone, is read; without any one of them it is refused."""
    assert _job(tmp_path, JOB)()
    needed = [key.name for key in TABLES[name].keys if key.default == NEEDED]
    for key in needed:
        job = deepcopy(JOB)
        del _place(job, name)[key]
        with pytest.raises(JobError):
            _job(tmp_path, job)()

    extra = {"plan.weigh": {"change"}, "size": {"measure"}, "plan": {"weigh"}, "hardware": {"other_bores"}}.get(
        name, set()
    )
    assert set(_place(JOB, name)) - extra - set(needed) <= EITHER


@pytest.mark.parametrize("name", PROFILES)
def test_a_profile_has_the_keys_that_its_reader_knows(name: str, tmp_path: Path) -> None:
    """As for the job file; a dotted key stands in the table before its dot."""
    _, table, own = _profile(tmp_path, name)
    table["qqqqqqqq"] = 1
    keys = {key.name.split(".")[0] for key in TABLES[name].keys}

    assert keys | INSIDE.get(name, set()) == _known(own) | _hidden(name)


def _hidden(name: str) -> set[str]:
    """Return what a bed's reader asks for only where its shape has it."""
    return {"outline_mm", "diameter_mm"} if name == "printer.bed" else set()


@pytest.mark.parametrize("name", PROFILES)
def test_a_profile_is_refused_without_a_needed_key_and_read_without_any_other(name: str, tmp_path: Path) -> None:
    """One key at a time is taken out of a shipped profile."""
    for key in TABLES[name].keys:
        _, table, own = _profile(tmp_path, name)
        *inner, last = key.name.split(".")
        for word in inner:
            table = table[word]
        if key.name in EITHER or last not in table:
            assert key.default != NEEDED
            continue
        del table[last]
        if key.default == NEEDED:
            with pytest.raises(FitwrightError):
                own()
        else:
            own()


def _keys() -> Iterator[tuple[KeyTable, Any]]:
    """Yield every key with its table."""
    yield from ((table, key) for table in key_tables() for key in table.keys)


def test_every_key_has_a_sentence_and_every_measure_a_unit() -> None:
    """A number without a unit is a ratio, a share, a rate or a coordinate, and is named here."""
    plain = {"lever", "friction", "change", "value", "low", "high", "warp", "PART or DUTY"}
    for table, key in _keys():
        assert key.meaning.endswith("."), (table.name, key.name)
        if key.takes == "number" and not key.unit:
            assert key.name in plain or key.name.endswith(("_ratio", "_share", "_reserve", "_friction")), key.name


def test_a_typing_slip_is_told_the_nearest_table() -> None:
    """Brackets are heeded as little as case; a file's name brings all of its tables."""
    assert [table.name for table in matching(key_tables(), "[[Part]]")] == ["part"]
    assert {table.name for table in matching(key_tables(), "job.toml")} == {*JOB_TABLES, "size.measure.device"}
    assert len(matching(key_tables(), "printer")) == 6
    with pytest.raises(CommandError) as refused:
        matching(key_tables(), "hardwear")
    assert refused.value.todo == "did you mean 'hardware'?"
