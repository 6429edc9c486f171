"""Codes: what stands for a person, and for a plate for life; neither can be a name."""

from __future__ import annotations

import re

from planner.errors import LedgerError

CODE = re.compile(r"[A-Za-z]{1,2}-?[0-9]{1,5}[a-z]?")
PLATE = re.compile(rf"(?P<job>{CODE.pattern})\.(?P<number>[1-9][0-9]{{0,3}})")
TELLING = re.compile(r"\S+@\S+|(?:\d[ /.-]?){6,}|\b[A-Z][a-z]+ [A-Z][a-z]+\b")
"""What an address, a telephone number, a birthday, or a first and last name look like."""


def code_of(text: str, where: str) -> str:
    """Return a person's code.

    Raises
    ------
    LedgerError
        Where it might be a name: a code is one or two letters and a number.

    >>> code_of("R-07", "recipient")
    'R-07'
    """
    if CODE.fullmatch(text) is None:
        wrong = f"'{text}' is no code: a code is one or two letters and a number, so that no name is stored by mistake"
        raise LedgerError(where=where, wrong=wrong, todo="write it as R-07, and keep the list of names elsewhere")
    return text


def plate_id(job: str, number: int) -> str:
    """Return the id that a plate keeps for life.

    >>> plate_id("R-07", 3)
    'R-07.3'
    """
    return f"{job}.{number}"


def job_and_number(plate: str) -> tuple[str, int]:
    """Return the code and the number in a plate's id.

    Raises
    ------
    LedgerError
        Where it is no such id.
    """
    found = PLATE.fullmatch(plate)
    if found is None:
        raise LedgerError(where=plate, wrong="this is no plate's id", todo="write it as on its card, such as R-07.3")
    return found["job"], int(found["number"])


def refuse_telling(text: str, where: str) -> None:
    """Refuse a text in which a person can be recognised.

    Raises
    ------
    LedgerError
        Where it holds what looks like a name, an address or a number.
    """
    found = TELLING.search(text)
    if found is not None:
        wrong = f"'{found.group()}' looks like a name, a birthday, a telephone number or an address"
        raise LedgerError(where=where, wrong=wrong, todo="leave it out: the code stands for the person")
