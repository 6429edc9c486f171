"""What may stand for a person."""

from __future__ import annotations

import pytest

from planner.errors import LedgerError
from planner.ledger.codes import code_of, job_and_number, refuse_telling


@pytest.mark.parametrize("name", ["Anna", "anna7", "Miller", "R07-Anna", "07", "R 07", "R-07\n", ""])
def test_no_name_passes_for_a_code(name: str) -> None:
    """A word with or without a digit is refused; one or two letters and a number pass."""
    with pytest.raises(LedgerError, match="code"):
        code_of(name, "recipient")
    for code in ("R-07", "r07", "MT-1203", "R-07a"):
        assert code_of(code, "recipient") == code


def test_a_plate_is_known_by_its_job_and_number() -> None:
    """The id on the card is read back; a bare number is no id."""
    assert job_and_number("R-07.12") == ("R-07", 12)
    for wrong in ("R-07", "12", "R-07.0", "R-07.x"):
        with pytest.raises(LedgerError, match="card"):
            job_and_number(wrong)


def test_notes_may_say_what_a_device_needs() -> None:
    """Sizes, parts and days pass; names, mail addresses and numbers that one can ring do not."""
    for fine in ("strap 20 mm shorter, comes back on Tuesday", "Drilled 3.2, tested with 15 N twice"):
        refuse_telling(fine, "note")
    for telling in ("for Anna Miller", "anna@example.org", "born 2017-03-04", "ring 555 0123 44"):
        with pytest.raises(LedgerError, match="looks like"):
            refuse_telling(telling, "note")
