"""Folder names for several jobs: from their names, each different."""

from __future__ import annotations

from collections.abc import Sequence


def folder_names(names: Sequence[str]) -> tuple[str, ...]:
    """Return one folder name for each job.

    >>> folder_names(["Heron for R-07", "Heron for R-07", "../x"])
    ('Heron-for-R-07', 'Heron-for-R-07-2', 'x')
    """
    found: list[str] = []
    for name in names:
        plain = "".join(letter if letter.isalnum() or letter in "-_" else "-" for letter in name).strip("-") or "job"
        folder, count = plain, 1
        while folder in found:
            count += 1
            folder = f"{plain}-{count}"
        found.append(folder)
    return tuple(found)
