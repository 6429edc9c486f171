"""Rows of the form: added, changed and taken away in the file as a person wrote it, and refused at their field."""

from __future__ import annotations

import difflib
from concurrent.futures import ThreadPoolExecutor
from dataclasses import fields
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from starlette.testclient import TestClient

from planner.desk import DeskFolder, desk_app
from planner.desk.form import form_of, with_form
from planner.desk.form_fields import UNASKED
from planner.desk.form_rows import TABLES, place_of
from planner.job import Cord, Hardware, Measure, Strap, read_job
from planner.mesh import write_stl
from tests.shapes import bored_plate

PORT, TOKEN, DAY = 8765, "a-token-of-the-test", date(2026, 12, 1)
JOB = """\
# A job of ours.
[job]
name = "gate"       # its name
material = "petg"

[size]
percent = 100.0     # as drawn

[[part]]
name = "plate"
mesh = "parts/plate.stl"
duty = "load"

# Bought at the corner shop.
[[hardware]]
name = "post"
kind = "machine-screw"
diameter_mm = 5.0   # measured
bore_mm = 5.3
fit = "turning"
joins = ["plate"]

# Nothing else.
"""
FILLED: dict[str, dict[str, Any]] = {
    "measure": {
        "name": "wrist",
        "kind": "around",
        "recipient_mm": 160,
        "device_mm": 160,
        "padding_mm": 0.5,
        "ease_mm": -1,
        "taken": "2026-11-01",
        "how": "tape",
        "off_mm": 2.5,
        "body": None,
    },
    "hardware": {
        "name": "nut",
        "kind": "nut",
        "diameter_mm": 3,
        "joins": ["plate"],
        "bore_mm": 6.5,
        "fit": "held",
        "stack_mm": 4,
        "count": 2,
        "size_mm": 5.5,
        "price_each": 0.1,
        "pilot_mm": None,
        "nut": None,
        "washers": None,
        "printed": "",
        "pitch_mm": None,
        "path_mm": None,
        "bores": "through",
    },
    "cord": {
        "name": "pull",
        "part": "plate",
        "diameter_mm": 1,
        "kind": "elastic",
        "channel_mm": 2,
        "path_mm": 100,
        "bends_deg": 90,
        "count": 1,
        "lever": 1.5,
        "friction": 0.2,
        "equaliser": None,
        "rate_n_per_mm": 0.1,
        "force_n": 6.0,
        "slack_mm": 2,
    },
    "strap": {"name": "band", "part": "plate", "webbing_mm": 25, "slot_mm": 26, "around_mm": 160, "count": 2},
}


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> DeskFolder:
    (tmp_path / "parts").mkdir()
    write_stl(tmp_path / "parts" / "plate.stl", [bored_plate(40, 30, 6, [(20, 15, 5.3, 48)])])
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    return DeskFolder(tmp_path, lambda: DAY)


def _changed(folder: DeskFolder, **change: Any) -> tuple[str, list[str]]:
    """Return the file's text after one change, and the lines that differ."""
    before = folder.job_words()
    text = folder.change_job(lambda words: with_form(words, {"rows": change}))
    differ = difflib.unified_diff(before.splitlines(), text.splitlines(), n=0, lineterm="")
    return text, [line for line in differ if line[:2] not in ("--", "++", "@@")]


@pytest.mark.parametrize("record", [Measure, Hardware, Cord, Strap])
def test_the_form_asks_for_what_the_job_reader_takes(record: type, folder: DeskFolder) -> None:
    """Every key of the record is a field; a row with all of them is read back with just these values."""
    name = "measure" if record is Measure else record.__name__.lower()
    rows = next(rows for rows in TABLES if rows.name == name)
    keys = [one.name for one in fields(record) if one.name not in ("guessed", *UNASKED)]
    assert [field.key for field in rows.fields] == keys == list(FILLED[name])

    _changed(folder, table=name, row=None, fields=FILLED[name])
    job = read_job(folder.job_file)
    found: Any = {"measure": job.size.measures, "hardware": job.hardware, "cord": job.cords, "strap": job.straps}[name]
    for key, value in FILLED[name].items():
        have = getattr(found[-1], key)
        have = list(have) if isinstance(have, tuple) else have.isoformat() if isinstance(have, date) else have
        assert have == value, key


@pytest.mark.parametrize("name", list(FILLED))
def test_a_row_needs_no_more_than_it_says(name: str, folder: DeskFolder) -> None:
    """Needed fields alone make a row that the reader takes; any of them left out is refused at its field."""
    rows = next(rows for rows in TABLES if rows.name == name)
    needed = {field.key: FILLED[name][field.key] for field in rows.fields if field.needed}
    before = folder.job_words()
    for left_out in needed:
        few = {key: value for key, value in needed.items() if key != left_out}
        with pytest.raises(Exception, match="missing") as refused:
            folder.change_job(lambda text, few=few: with_form(text, {"rows": {"table": name, "fields": few}}))  # type: ignore[misc]
        place = place_of(refused.value.where)  # type: ignore[attr-defined]
        assert place is not None
        assert (place["table"], place["key"]) == (name, left_out)
        assert folder.job_words() == before
    _changed(folder, table=name, fields=needed)


def test_order_and_comments_are_kept(folder: DeskFolder) -> None:
    """One field changes one line, its comment stays; a row is added behind its like; taken away, the rest stands."""
    _, changed = _changed(folder, table="hardware", row=0, fields={"diameter_mm": 5.1})
    assert changed == ["-diameter_mm = 5.0   # measured", "+diameter_mm = 5.1   # measured"]
    _, emptied = _changed(folder, table="hardware", row=0, fields={"bore_mm": None})
    assert emptied == ["-bore_mm = 5.3"]
    text, added = _changed(folder, table="hardware", fields=FILLED["hardware"])
    assert all(line.startswith("+") for line in added)
    assert text.index("# Bought") < text.index('"post"') < text.index('"nut"')
    _changed(folder, table="hardware", row=1, remove=True)
    text, _ = _changed(folder, table="hardware", row=0, remove=True)
    assert "hardware" not in text
    assert [line for line in JOB.splitlines() if line.startswith("#")] == [
        line for line in text.splitlines() if line.startswith("#")
    ]
    assert read_job(folder.job_file).hardware == ()


@pytest.mark.parametrize(
    "text",
    [
        JOB.replace("[size]\npercent = 100.0     # as drawn\n", "").replace(
            "[job]", "size = { percent = 100.0 }\n[job]"
        ),
        JOB + "\n[[size.measure]]\nname = 'a'\nkind = 'width'\nrecipient_mm = 1.0\ndevice_mm = 1.0\n",
        JOB.replace('name = "gate"       # its name\nmaterial = "petg"', "").replace(
            "[job]", "job = { name = 'gate', material = 'petg' }"
        ),
        JOB + "\n[[part]]\nname = 'other'\nmesh = 'parts/plate.stl'\n[[hardware]]\nname = 'x'\n"
        "kind = 'nut'\ndiameter_mm = 3.0\njoins = ['other']\n",
        JOB.replace("\n", "\r\n"),
    ],
    ids=["size in one line", "size in two places", "job in one line", "kinds mixed", "other ends of line"],
)
def test_however_the_file_is_written_it_can_be_changed(text: str, folder: DeskFolder) -> None:
    """Tables in one line, in several places, rows between other rows: each is still the same job after a change."""
    folder.job_file.write_bytes(text.encode())
    before = read_job(folder.job_file)
    for name in ("hardware", "measure"):
        _changed(folder, table=name, fields=FILLED[name])
    folder.change_job(lambda words: with_form(words, {"size": {"side": "left"}, "job": {"name": "new"}}))
    job = read_job(folder.job_file)

    assert (job.name, job.size.side, job.size.percent) == ("new", "left", 100.0)
    assert job.hardware[:-1] == before.hardware
    assert job.hardware[-1].name == "nut"
    assert job.size.measures[:-1] == before.size.measures
    assert job.parts == before.parts


def test_a_station_on_a_mesh_stays_and_is_told(folder: DeskFolder) -> None:
    """A measure taken on the mesh cannot be typed into a field: it is told, and no change touches it."""
    station = '\n[[size.measure]]\nname = "w"\nkind = "width"\nrecipient_mm = 40.0\n'
    station += 'device = { part = "plate", station_percent = 50 }\n'
    folder.job_file.write_text(JOB + station, encoding="utf-8")
    row = next(table for table in form_of(folder.job_words())["tables"] if table["name"] == "measure")["rows"][0]
    assert row["elsewhere"] == {"device_mm": "part plate, station percent 50"}

    text, changed = _changed(folder, table="measure", row=0, fields={"recipient_mm": 41})
    assert changed == ["-recipient_mm = 40.0", "+recipient_mm = 41.0"]
    assert 'device = { part = "plate", station_percent = 50 }' in text


def test_changes_at_the_same_time_are_all_kept(folder: DeskFolder) -> None:
    """Forty changes from eight threads: none overwrites another."""
    with ThreadPoolExecutor(8) as threads:
        made = [{**FILLED["strap"], "name": f"band {n}"} for n in range(40)]
        list(threads.map(lambda one: _changed(folder, table="strap", fields=one), made))

    assert sorted(strap.name for strap in read_job(folder.job_file).straps) == sorted(one["name"] for one in made)


@pytest.mark.parametrize(
    ("change", "key"),
    [
        ({"table": "cord", "fields": {**FILLED["cord"], "diameter_mm": -3}}, "diameter_mm"),
        ({"table": "cord", "fields": {**FILLED["cord"], "part": "nowhere"}}, "part"),
        ({"table": "hardware", "row": 0, "fields": {"joins": ["nowhere"]}}, "joins"),
        ({"table": "hardware", "row": 0, "fields": {"count": 1.5}}, "count"),
        ({"table": "measure", "fields": {**FILLED["measure"], "taken": "some day"}}, "taken"),
    ],
)
def test_a_refusal_names_its_field(change: dict[str, Any], key: str, folder: DeskFolder) -> None:
    """One sentence, with table and key, and what is to be said at the field alone; the file stands."""
    with TestClient(desk_app(folder, TOKEN, PORT), base_url=f"http://127.0.0.1:{PORT}") as desk:
        desk.get("/", params={"token": TOKEN})
        answer = desk.put("/form", json={"rows": change})
        told = answer.json()

    assert answer.status_code == 400
    assert told["error"].endswith(".")
    assert (told["at"]["table"], told["at"]["key"]) == (change["table"], key)
    assert told["at"]["words"] in told["error"]
    assert folder.job_words() == JOB


@pytest.mark.parametrize(
    "change",
    [
        {}, {"table": "job"}, {"table": ["cord"]}, {"table": "hardware", "row": 7, "remove": True}, {"table": "cord", "row": -1},
        {"table": "hardware", "row": True, "remove": True}, {"table": "hardware", "row": 0, "fields": [1]},
        {"table": "hardware", "row": 0, "fields": {"mesh": "x"}}, {"table": "hardware", "row": 0, "fields": {"joins": {"a": 1}}},
        {"table": "hardware", "row": 0, "fields": {"name": {}}}, "rows", 5, None,
    ],
)  # fmt: skip
def test_what_is_no_change_is_refused(change: Any, folder: DeskFolder) -> None:
    """Unknown tables, rows and keys, wrong types: one sentence, and the file stands."""
    with TestClient(desk_app(folder, TOKEN, PORT), base_url=f"http://127.0.0.1:{PORT}") as desk:
        desk.get("/", params={"token": TOKEN})
        answer = desk.put("/form", json={"rows": change})

    assert answer.status_code == 400
    assert folder.job_words() == JOB


@pytest.mark.parametrize(
    "text", ["no = [toml", "job = 5\nsize = [1]\npart = 'x'\nhardware = 3\n", "[size]\nmeasure = 4\n"]
)
def test_a_broken_file_can_still_be_mended_on_the_page(text: str, folder: DeskFolder) -> None:
    """The page shows the text with empty fields, the form refuses in a sentence, and a whole text is taken."""
    folder.job_file.write_text(text, encoding="utf-8")
    with TestClient(desk_app(folder, TOKEN, PORT), base_url=f"http://127.0.0.1:{PORT}") as desk:
        desk.get("/", params={"token": TOKEN})
        state = desk.get("/state").json()
        assert (state["job"], state["form"]["parts"]) == (text, [])
        for fields_given in (
            {"size": {"percent": 90}},
            {"job": {"name": "x"}},
            {"rows": {"table": "cord", "fields": {}}},
        ):
            assert desk.put("/form", json=fields_given).status_code == 400
        assert desk.put("/job", json={"text": JOB}).status_code == 200


def test_two_desks_do_not_shut_each_other_out(folder: DeskFolder) -> None:
    """Cookies of one host are shared by its ports: each desk has a name of its own."""
    with TestClient(desk_app(folder, "one", 8001), base_url="http://127.0.0.1:8001") as one:
        one.get("/", params={"token": "one"})
        other = desk_app(folder, "two", 8002)
        with TestClient(other, base_url="http://127.0.0.1:8002", cookies=one.cookies) as two:
            two.get("/", params={"token": "two"})
            one.cookies.update(two.cookies)
            assert one.get("/state").status_code == two.get("/state").status_code == 200


def test_the_plain_file_is_what_tomlkit_reads(folder: DeskFolder) -> None:
    """The form changes nothing by being looked at."""
    form_of(folder.job_words())
    assert tomlkit.dumps(tomlkit.parse(JOB)) == JOB == folder.job_words()
