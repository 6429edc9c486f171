"""The record: a form that reads back, is never overwritten once filled in, and refuses what cannot be."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import RecordError
from planner.output import blank, form_text, read_record, untouched
from planner.plan import Plan


@pytest.fixture(name="form")
def _form(plan: Plan) -> str:
    return form_text(blank(plan, "a4"))


def _read(folder: Path, text: str) -> object:
    """Write a record and read it."""
    path = folder / "record.toml"
    path.write_text(text, encoding="utf-8")
    return read_record(path)


def test_the_form_reads_back_as_it_was(plan: Plan, form: str, tmp_path: Path) -> None:
    """What is written is what is read, empty answers and all."""
    assert _read(tmp_path, form) == blank(plan, "a4")


@given(name=st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1).filter(str.strip))
def test_any_name_survives_the_form(plan: Plan, name: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Quotes, brackets, marks and letters of any script come back."""
    from dataclasses import replace

    record = blank(plan, "a4")
    strange = replace(record, of=replace(record.of, job=name))

    assert _read(tmp_path_factory.mktemp("form"), form_text(strange)) == strange
    assert untouched(form_text(strange))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (('result = ""', 'result = "yes"'), "known here: fail, pass"),
        (('result = ""', "result = 1"), "a text is needed"),
        (('on = ""', 'on = "yesterday"'), "a date is needed"),
        (("recipient_mm = 58.0", "recipient_mm = -1"), "cannot be"),
        (("recipient_mm = 58.0", "recipient = 58.0"), "did you mean 'recipient_mm'"),
        (("[of]", "[off]"), "did you mean 'of'"),
        (('trial = "pieces"', 'trial = "side"'), "twice"),
        (("\n[test]", '\n[[override]]\nitem = "plan"\nrole = ""\nreason = "x"\n[test]'), "role"),
        (("\n[test]", 2 * '\n[[override]]\nitem = "plan"\nrole = "x"\nreason = "x"' + "\n[test]"), "twice"),
        (("recipient_mm = 58.0", "recipient_mm = nan"), "finite"),
        (('on = ""', 'on = "' + "9" * 40 + '"'), "a date is needed"),
        (('lot = ""', 'lot = "\\u001b[31m"'), "control character"),
    ],
)
def test_a_wrong_record_gives_one_sentence(form: str, tmp_path: Path, change: tuple[str, str], told: str) -> None:
    """File, key, what is wrong, what to do."""
    assert change[0] in form
    with pytest.raises(RecordError) as caught:
        _read(tmp_path, form.replace(*change, 1))

    assert str(caught.value).startswith("record.toml")
    assert told in str(caught.value)


def test_numbers_and_dates_may_stand_without_quotes(form: str, tmp_path: Path) -> None:
    """A lot 2211 and a reading 231.5 are what they say; a date is a date."""
    text = (
        form.replace('lot = ""', "lot = 2211", 1)
        .replace('reading = ""', "reading = 231.5", 1)
        .replace('on = ""', "on = 2026-12-01")
    )
    record = _read(tmp_path, text)

    assert record.lots[0].lot == "2211"  # type: ignore[attr-defined]
    assert record.trials[0].reading == "231.5"  # type: ignore[attr-defined]
    assert record.tested_on == date(2026, 12, 1)  # type: ignore[attr-defined]
