"""The bench folder: nothing that a person wrote is ever overwritten."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.output import write_papers
from tests.output.conftest import MakePlan


def test_a_new_plan_never_overwrites_what_somebody_filled_in(make_plan_of: MakePlan, tmp_path: Path) -> None:
    """An untouched form is renewed; a filled one stays to the byte, and a changed plan's form lies beside it."""
    plan, other = make_plan_of(), make_plan_of("[size]\npercent = 110.0\n")
    record = tmp_path / "bench" / "record.toml"

    assert write_papers(plan, tmp_path).kept is None
    assert write_papers(other, tmp_path).kept is None
    assert "scale_percent = 110.0" in record.read_text(encoding="utf-8")
    write_papers(plan, tmp_path)
    filled = record.read_text(encoding="utf-8").replace('result = ""', 'result = "pass"', 1)
    record.write_text(filled, encoding="utf-8")
    again = write_papers(plan, tmp_path)
    assert again.kept == again.record == record  # it asks for the same: no second form
    beside = write_papers(other, tmp_path)

    assert record.read_text(encoding="utf-8") == filled
    assert (beside.kept, beside.record.name) == (record, "record-2.toml")
    assert "scale_percent = 110.0" in beside.record.read_text(encoding="utf-8")


@pytest.mark.parametrize("raw", [b"\xff\xfe rubbish", b"not = [toml", b""])
def test_what_cannot_be_read_is_kept_too(make_plan_of: MakePlan, tmp_path: Path, raw: bytes) -> None:
    """A record that is broken, or of another kind, is somebody's: nothing is lost."""
    record = tmp_path / "bench" / "record.toml"
    record.parent.mkdir()
    record.write_bytes(raw)
    written = write_papers(make_plan_of(), tmp_path)

    assert record.read_bytes() == raw
    assert written.record.name == "record-2.toml"
