"""Rules of ``[plan]`` about which parts share a plate."""

from __future__ import annotations

from collections.abc import Iterable

from planner.job.file.table import Table
from planner.phrases import listed

Sets = tuple[tuple[str, ...], ...]


def read_plate_rules(plan: Table) -> dict[str, Sets]:
    """Read ``together`` and ``apart``: lists of lists of at least two part names, which must not contradict."""
    together, apart = _sets(plan, "together"), _sets(plan, "apart")
    for one in joined(together):
        for other in apart:
            both = sorted(one & set(other))
            if len(both) > 1:
                names = listed(f"'{name}'" for name in both[:2])
                plan.refuse(
                    "apart", f"{names} are listed under together as well", "take them out of one of the two lists"
                )
    return {"together": together, "apart": apart}


def _sets(plan: Table, key: str) -> Sets:
    """Read a list of lists of names."""
    if not plan.has(key):
        return ()
    rows = plan.raw[key]
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        plan.refuse(key, "a list of lists of part names is needed", f'write {key} = [["a", "b"]]')
    found = tuple(Table({key: row}, plan.where, plan.error).texts(key, least=2) for row in rows)
    for row in found:
        if len(set(row)) < len(row):
            plan.refuse(key, f"a name stands twice in {list(row)}", "name each part once in a list")
    return found


def joined(sets: Iterable[Iterable[str]]) -> tuple[frozenset[str], ...]:
    """Return sets of names with those that share a name made one.

    >>> joined([("a", "b"), ("c", "d"), ("b", "e")]) == (frozenset("cd"), frozenset("abe"))
    True
    """
    rows: list[frozenset[str]] = []
    for names in sets:
        new = frozenset(names)
        for row in [row for row in rows if row & new]:
            rows.remove(row)
            new |= row
        rows.append(new)
    return tuple(rows)
