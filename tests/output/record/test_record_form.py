"""The form of a record: any changed letter counts as filled in."""

from __future__ import annotations

import pytest

from planner.output import blank, form_text, untouched
from planner.plan import Plan


@pytest.fixture(name="form")
def _form(plan: Plan) -> str:
    return form_text(blank(plan, "a4"))


@pytest.mark.parametrize(
    "change",
    [('result = ""', 'result = "pass"'), ("# form", "#form"), ('on = ""', 'on = "" '), ("Record of", "record of")],
)
def test_any_changed_letter_counts_as_filled_in(form: str, change: tuple[str, str]) -> None:
    """An answer, a lost mark, even a blank: touched. Other line ends are not a change."""
    assert untouched(form)
    assert untouched(form.replace("\n", "\r\n"))
    assert not untouched(form.replace(*change, 1))
