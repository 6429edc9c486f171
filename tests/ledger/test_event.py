"""Events."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest

from planner.ledger.event import KINDS
from tests.ledger.telling import tell


def test_an_event_stays_as_it_was_told() -> None:
    """It cannot be changed, and each kind stands once."""
    with pytest.raises(FrozenInstanceError):
        tell("note", "R-07").subject = "R-08"  # type: ignore[misc]
    assert len(set(KINDS)) == len(KINDS)
