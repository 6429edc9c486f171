"""A print as an event tells it: how long it ran, and the spools that fed it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planner.errors import CommandError

GRAMS_MOST = 1e5
"""No spool holds more."""


def took_s(text: str) -> float | None:
    """Return how long a plate ran; None where nobody said.

    Raises
    ------
    CommandError
        Where it is no time.
    """
    from planner.cli.plan.failed_command import seconds_of

    try:
        return seconds_of(text) if text else None
    except CommandError as error:
        raise CommandError(where="--took", wrong=error.wrong, todo=error.todo) from None


def spools_told(spools: list[str] | None) -> dict[str, Any]:
    """Return what is told of the spools that fed a print: one by its id alone, several with their grams if told."""
    rows = []
    for told in spools or ():
        name, _, grams = told.rpartition(":")
        try:
            used_g = float(grams.replace(",", ".")) if name else None
        except ValueError:
            name, used_g = told, None
        if used_g is not None and not 0.0 <= used_g < GRAMS_MOST:
            raise _no_grams(told)
        rows.append({"spool": name or told, **({} if used_g is None else {"used_g": used_g})})
    if len(rows) == 1 and "used_g" not in rows[0]:
        return rows[0]
    return {"fed": rows}


def _no_grams(told: str) -> Exception:
    """Return what is said of grams that cannot be."""
    return CommandError(where="--spool", wrong=f"'{told}' tells no grams", todo="write them as --spool S-1:30")


def taken_text(row: Mapping[str, Any]) -> str:
    """Return what a device took out of the stock.

    >>> taken_text({"item": "nut M3", "unit": "pcs", "n": 9.0})
    'nut M3 9 pcs'
    """
    return f"{row['item']} {row['n']:.4g} {row['unit']}"
