"""The job file: what it may say, and the one sentence for what it may not."""

from __future__ import annotations

import re
from datetime import date, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.errors import FitwrightError, JobError
from planner.job import Job, Station, read_job, with_changes
from tests.conftest import MakeJob
from tests.shapes import DATA, cuboid, written

FULL = (DATA / "jobs" / "full.toml").read_text(encoding="utf-8")
SHORT = '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'


@pytest.fixture(name="full")
def _full(make_job: MakeJob) -> Job:
    return make_job(FULL, cuff=cuboid(60, 60, 60), deck=cuboid(90, 30, 10), jaw=cuboid(40, 10, 10))


def test_every_table_of_the_contract_is_read(full: Job) -> None:
    """A job that uses every table comes back with every value."""
    assert (full.size.percent, full.size.side, full.size.drawn_for) == (106.5, "left", "right")
    assert full.size.mirrored
    assert full.size.measures[0].taken == date(2026, 10, 2)
    assert full.part("cuff").skin_side
    assert full.part("cuff").handed
    assert full.hardware[0].bore_mm == 5.3
    assert full.gaps[0].drawn_mm == 0.40
    assert full.cords[0].bends_deg == 120.0
    assert full.straps[0].around_mm == 190.0
    assert full.paddings[0].area_mm2 == 14500.0
    assert full.spools[0].left_g == 620.0
    assert [place.name for place in full.use.kept] == ["garden"]
    assert full.calendar is not None
    assert full.calendar.start == datetime(2026, 12, 1, 17, 30)
    assert full.calendar.attended[0].days == (0, 1, 2, 3, 4)
    assert full.calendar.attended[1].from_min == 9 * 60
    assert full.overrides[0].role == "chapter lead"
    assert full.settings.layer_height_mm.value == 0.16


def test_a_part_named_only_by_hardware_is_taken_from_beside_the_others(full: Job) -> None:
    """A mesh of the right name beside the others becomes a part, and the guess is listed."""
    assert {part.name for part in full.parts} == {"cuff", "deck", "jaw"}
    assert any("deck" in note.what for note in full.notes)


def test_only_name_and_mesh_are_needed(make_job: MakeJob) -> None:
    """The shortest job loads with the standard profiles."""
    job = make_job(SHORT, a=cuboid(20, 20, 20))

    assert (job.printer.name, job.settings.name, job.material) == ("bench-220", "standard-0.4", None)


def test_device_may_be_measured_on_the_mesh(make_job: MakeJob) -> None:
    """``device = { part, station_percent }`` is a place on a mesh."""
    text = SHORT + '[[size.measure]]\nname="w"\nkind="width"\nrecipient_mm=58\ndevice={part="a",station_percent=10}\n'

    assert make_job(text, a=cuboid(20, 20, 20)).size.measures[0].device_mm == Station(part="a", station_percent=10.0)


KEYS = sorted({line.split("=")[0].strip() for line in FULL.splitlines() if re.match(r"^[a-z_0-9]+ = ", line)})


@pytest.mark.parametrize("key", KEYS)
def test_a_misspelt_key_is_named_with_the_nearest_known_one(key: str, make_job: MakeJob, tmp_path: Path) -> None:
    """Every key of the contract, misspelt, gives one sentence that names the right one."""
    wrong = key[:-1] + "xx" if len(key) > 3 else key + "x"
    text = re.sub(rf"(?m)^{key} = ", f"{wrong} = ", FULL, count=1)

    with pytest.raises(FitwrightError) as caught:
        make_job(text, cuff=cuboid(60, 60, 60), deck=cuboid(90, 30, 10), jaw=cuboid(40, 10, 10))

    sentence = str(caught.value)
    assert wrong in sentence
    assert key in sentence.replace(wrong, "")
    assert "\n" not in sentence
    assert tmp_path.exists()


BROKEN = {
    "not TOML": ("[job\nname", "line 1"),
    "no job table": ('[[part]]\nname="a"\nmesh="a.stl"\n', "job"),
    "no part": ('[job]\nname="x"\n', "[[part]]"),
    "missing mesh": ('[job]\nname="x"\n[[part]]\nname="a"\nmesh="aa.stl"\n', "a.stl"),
    "count of zero": (SHORT + "count = 0\n", "count"),
    "negative percent": (SHORT + "[size]\npercent = -5.0\n", "percent"),
    "unknown duty": (SHORT + 'duty = "lode"\n', "load"),
    "unknown material": ('[job]\nname="x"\nmaterial="petgg"\n[[part]]\nname="a"\nmesh="a.stl"\n', "petg"),
    "unknown printer": ('[job]\nname="x"\nprinter="bench-221"\n[[part]]\nname="a"\nmesh="a.stl"\n', "bench-220"),
    "joins a stranger": (SHORT + '[[hardware]]\nname="p"\nkind="nut"\ndiameter_mm=3\njoins=["aa"]\n', "'a'"),
    "two of a name": (SHORT + '[[part]]\nname="a"\nmesh="a.stl"\n', "two parts"),
    "text for a number": (SHORT + 'count = "two"\n', "whole number"),
    "not a number": (SHORT + "[size]\npercent = nan\n", "finite"),
    "hundreds of digits": (SHORT + "[size]\npercent = 1" + "0" * 400 + "\n", "finite"),
    "thousands of digits": (SHORT + "[size]\npercent = 1" + "0" * 5000 + "\n", "digits"),
    "no direction": (SHORT + "pose = [0, 0, 0]\n", "direction"),
    "override without reason": (SHORT + '[[override]]\nrule="mesh.open"\nrole="lead"\nreason=""\n', "reason"),
    "override of no rule": (SHORT + '[[override]]\nrule="mesh.opne"\nrole="lead"\nreason="x"\n', "mesh.open"),
    "no such day": (SHORT + '[plan]\nattended=["Mon-Fry 17:30-22:30"]\n', "Fri"),
    "infill over 100": (SHORT + "[settings]\ninfill_percent = 120.0\n", "infill_percent"),
}


@pytest.mark.parametrize("case", BROKEN)
def test_a_broken_job_gives_one_sentence(case: str, make_job: MakeJob) -> None:
    """Each broken job file is refused in one sentence that names the place."""
    text, told = BROKEN[case]

    with pytest.raises(FitwrightError) as caught:
        make_job(text, a=cuboid(20, 20, 20))

    assert told in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("raw", [b"", b"\xff\xfe\x00\x01", b"[job]\r\nname = \x00"])
def test_a_file_that_is_no_text_is_refused(raw: bytes, tmp_path: Path) -> None:
    """Empty, binary and half-binary files are refused, never parsed by half."""
    path = tmp_path / "job.toml"
    path.write_bytes(raw)

    with pytest.raises(JobError):
        read_job(path)


def test_windows_line_ends_and_a_byte_order_mark_do_no_harm(make_job: MakeJob, tmp_path: Path) -> None:
    """A job saved on another system reads the same."""
    make_job(SHORT, a=cuboid(20, 20, 20))
    (tmp_path / "job.toml").write_bytes(b"\xef\xbb\xbf" + SHORT.replace("\n", "\r\n").encode())

    assert read_job(tmp_path / "job.toml").name == "x"


def test_a_tried_percent_is_marked_as_a_what_if(full: Job) -> None:
    """``--scale`` replaces the percent and says that it is only tried."""
    tried = with_changes(full, percent=90.0)

    assert (tried.size.percent, tried.size.what_if) == (90.0, True)


SCALARS = st.one_of(st.integers(-(10**9), 10**9), st.floats(), st.booleans(), st.text(max_size=5))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(key=st.sampled_from(KEYS), value=SCALARS)
def test_any_value_loads_or_gives_a_sentence(key: str, value: object, tmp_path: Path) -> None:
    """Whatever stands at a key, the job loads or one of our errors is raised, and nothing else."""
    for name in ("cuff", "deck", "jaw"):
        if not (tmp_path / f"{name}.stl").exists():
            written(cuboid(20, 20, 20), tmp_path / f"{name}.stl")
    told = str(value).lower() if isinstance(value, bool | int | float) else f"'{value}'".replace("\n", " ")
    text = re.sub(rf"(?m)^{key} = .*$", lambda _: f"{key} = {told}", FULL, count=1)
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")

    try:
        read_job(tmp_path / "job.toml")
    except FitwrightError as error:
        assert "\n" not in str(error)


@pytest.mark.parametrize("code", ["R 07", "Anna", "Anna Maria", "a-very-long-code-0000007", "R-07; 5"])
def test_a_recipient_is_a_code_and_no_name(make_job: MakeJob, code: str) -> None:
    """What has a space, no digit, or is long is refused with a code that would do."""
    text = f'[job]\nname = "x"\nrecipient = "{code}"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'
    with pytest.raises(JobError, match="never a name"):
        make_job(text, a=cuboid(9, 9, 9))


def test_a_code_is_kept(make_job: MakeJob) -> None:
    """A code of letters, digits and hyphens is read; without one it is empty."""
    text = '[job]\nname = "x"\n{}[[part]]\nname = "a"\nmesh = "a.stl"\n'

    assert make_job(text.format('recipient = "R-07"\n'), a=cuboid(9, 9, 9)).recipient == "R-07"
    assert make_job(text.format(""), a=cuboid(9, 9, 9)).recipient == ""
