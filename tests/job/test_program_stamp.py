"""The program's stamp: the same while no file of it changes."""

import re

from planner.job import program_stamp


def test_the_stamp_is_one_key_and_holds() -> None:
    """Asked twice it is one key of 64 hex digits (SHA-256, FIPS 180-4)."""
    assert re.fullmatch("[0-9a-f]{64}", program_stamp())
    assert program_stamp() == program_stamp()
