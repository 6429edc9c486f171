"""What a page sends is taken as it is meant, or refused in one sentence."""

from __future__ import annotations

from typing import Any

import pytest

from planner.desk.sent import field_of
from planner.errors import CommandError


@pytest.mark.parametrize(
    ("value", "kind", "taken"), [(3, int, 3), (3.0, int, 3), (2, float, 2.0), (None, float, None), ("a", str, "a")]
)
def test_a_field_of_its_kind_is_taken(value: Any, kind: type, taken: Any) -> None:
    """A whole number in either spelling; a number may be left out."""
    assert field_of({"n": value}, "n", kind) == taken


@pytest.mark.parametrize(
    ("value", "kind"), [(True, int), (2.5, int), (1e12, float), ("2", float), (None, str), (None, int)]
)
def test_any_other_is_refused(value: Any, kind: type) -> None:
    """Yes for a number, a half for a whole one, far too much, words, nothing."""
    with pytest.raises(CommandError, match=r"^n: "):
        field_of({"n": value}, "n", kind)
