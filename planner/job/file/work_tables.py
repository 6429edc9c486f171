"""The ``[[work]]`` and ``[hands]`` tables of a job file: what is done by hand, and how long it takes."""

from __future__ import annotations

from typing import get_args

from planner.job.file.table import Table
from planner.job.hand_work import HandMinutes, HandWork, WorkKind

WORK_KINDS: tuple[WorkKind, ...] = get_args(WorkKind)


def read_works(table: Table) -> tuple[HandWork, ...]:
    """Read every ``[[work]]``, in the order in which the work is done."""
    return tuple(_work(each) for each in table.tables("work"))


def read_hand_minutes(table: Table) -> HandMinutes:
    """Read ``[hands]``; everything may be left out."""
    hands = table.table_or_empty("hands")
    found = HandMinutes(
        finish_min=hands.number_or_none("finish_min", high=100_000.0),
        assemble_min=hands.number_or_none("assemble_min", high=100_000.0),
        test_min=hands.number_or_none("test_min", high=100_000.0),
    )
    hands.done()
    return found


def _work(table: Table) -> HandWork:
    """Read one piece of work; its bores are named, or told by the diameter that they are drawn at."""
    work = HandWork(
        part=table.text("part"),
        kind=table.word("kind", WORK_KINDS),
        to_mm=table.number("to_mm", high=200.0, above=True),
        bores=table.texts("bores"),
        drawn_mm=table.number_or_none("drawn_mm", high=500.0, above=True),
        depth_mm=table.number_or_none("depth_mm", high=1000.0, above=True),
        pegs=table.texts("pegs"),
        into=table.text("into", ""),
    )
    table.done()
    _only_its_keys(table, work)
    if work.kind == "file":
        if not work.into or work.drawn_mm is None:
            table.refuse("into", "into and drawn_mm say where it is filed", 'write into = "grip" and drawn_mm = 6.0')
    elif work.kind == "sand":
        if bool(work.pegs) == (work.drawn_mm is not None):
            wrong = "neither pegs nor drawn_mm is stated" if not work.pegs else "both pegs and drawn_mm are stated"
            table.refuse("pegs", wrong, 'write pegs = ["p1"], or drawn_mm = 8.0')
    elif bool(work.bores) == (work.drawn_mm is not None):
        wrong = "neither bores nor drawn_mm is stated" if not work.bores else "both bores and drawn_mm are stated"
        table.refuse("bores", wrong, 'write bores = ["b1"], or drawn_mm = 3.2')
    return work


def _only_its_keys(table: Table, work: HandWork) -> None:
    """Refuse keys that a kind of work does not take: bores are drilled, pegs sanded, flat faces filed."""
    takes = {"sand": ("pegs", "into"), "file": ("into",)}.get(work.kind, ("bores", "depth_mm"))
    for key in ("bores", "depth_mm", "pegs", "into"):
        if key not in takes and getattr(work, key):
            which = {"pegs": "sand", "into": "file or sand"}.get(key, "drill, ream, bush or plug")
            table.refuse(key, f"it is for {which}, and this is {work.kind}", f"leave out {key}, or change kind")
