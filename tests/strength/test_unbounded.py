"""What bounds no load is told by part."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from planner.strength.unbounded import past_dead_point, untold_parts


def test_copies_are_told_as_their_parts_and_nothing_where_nothing_moves() -> None:
    """The second copy of a link stands for its part."""
    movement: Any = SimpleNamespace(untold_links=lambda _: {"link#2": "why"})

    assert untold_parts(movement, 1.0) == {"link": "why"}
    assert untold_parts(None, 1.0) == {}
    assert past_dead_point(None) == ("", frozenset())
