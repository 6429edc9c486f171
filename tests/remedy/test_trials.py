"""What is tried is tried once, and parts are laid again only where the change may lay them otherwise."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from planner.job import Job, read_job
from planner.remedy.trials import Trials, may_lie_otherwise


def test_no_change_is_judged_twice(heron: Path) -> None:
    """The same edits asked again give the very record of before; asked with other poses they are judged anew."""
    asked: list[dict[str, bool]] = []

    def again(job: Job, **how: bool) -> Any:
        asked.append(how)
        return SimpleNamespace(job=job)

    stand: Any = SimpleNamespace(job=read_job(heron))
    trials = Trials(stand, again)
    first, second = trials.after((), posed=False), trials.after((), posed=False)
    other = trials.after((), posed=True)

    assert first is second
    assert first is not other
    assert asked == [
        {"posed": False, "strong": False, "asked": True},
        {"posed": True, "strong": True, "asked": True},
    ]


@pytest.mark.parametrize(
    ("kind", "moves", "otherwise"),
    [("pose", False, True), ("hardware", False, False), ("hardware", True, True), ("webbing", True, False)],
)
def test_parts_lie_otherwise_after_some_changes_only(kind: Any, moves: bool, otherwise: bool) -> None:
    """Another pose always, a thicker pin where something moves, other webbing never."""
    stand: Any = SimpleNamespace(moves=moves)
    again: Any = None

    assert may_lie_otherwise(Trials(stand, again), kind) is otherwise
