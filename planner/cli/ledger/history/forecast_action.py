"""``ledger LEDGER forecast``: what the months to come bring, played from the ledger's own history."""

from __future__ import annotations

import math
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from planner.cli.ledger.history.as_learned import profiles_of
from planner.errors import CommandError
from planner.ledger import MonthsAhead, learned, months_ahead
from planner.phrases import plural, wait_words

if TYPE_CHECKING:
    from rich.console import Console
    from sqlalchemy.engine import Engine

Row = dict[str, Any]
MONTHS_N, MONTHS_MOST = 6, 11
"""How many months are played where nobody says; the calendars reach a year."""


def months_told(text: str) -> int:
    """Return how many months are asked for.

    Raises
    ------
    CommandError
        Where it is no whole number of 1 to 11.
    """
    if not text:
        return MONTHS_N
    if not (text.isascii() and text.isdecimal() and len(text) < 3 and 1 <= int(text) <= MONTHS_MOST):
        wrong = f"'{text}' is no number of months"
        raise CommandError(where="forecast", wrong=wrong, todo=f"write 1 to {MONTHS_MOST}, or leave it out")
    return int(text)


def forecast_of(engine: Engine, folder: Path, now: datetime, months_n: int = MONTHS_N) -> MonthsAhead:
    """Return the months to come; profiles of printers are read from a folder."""
    profiles = profiles_of(engine, folder)
    return months_ahead(engine, learned(engine, profiles), profiles, now, months_n)


def forecast_json(ahead: MonthsAhead) -> Row:
    """Return the months to come as plain JSON types; a history that is too short is a hold with what is missing."""
    found = {
        "verdict": "hold" if ahead.missing else "go",
        "missing": list(ahead.missing),
        "from": {"arrivals": ahead.arrived_n, "days": ahead.seen_days, "handed": ahead.handed_n},
    }
    if ahead.brings is None:
        return {**found, "forecast": [], "waiting_days": None, "open": None, "plays": 0}
    rows = [
        {
            "month": f"{begin:%Y-%m}",
            "from": begin.date().isoformat(),
            "to": (end - timedelta(seconds=1)).date().isoformat(),
            "devices": _ends(ends),
        }
        for (begin, end), ends in zip(ahead.months, ahead.brings.devices_n, strict=True)
    ]
    waits, open_n = _ends(ahead.brings.waits_days), _ends(ahead.brings.open_n)
    return {**found, "forecast": rows, "waiting_days": waits, "open": open_n, "plays": ahead.brings.plays_n}


def _ends(ends: tuple[float, float, float]) -> Row:
    """Return three percentiles; null where a device is not ready within the year, or none comes in."""
    return {
        name: value if math.isfinite(value) else None for name, value in zip(("p10", "p50", "p90"), ends, strict=True)
    }


def show_forecast(console: Console, ahead: MonthsAhead) -> None:
    """Print devices a month, waiting time and what is open at the end, or what is missing."""
    from planner.output import row_table

    if ahead.brings is None:
        console.print("HOLD  the ledger's history is too short to simulate the months to come:", markup=False)
        for text in ahead.missing:
            console.print(f" - {text}", markup=False, soft_wrap=True)
        return
    found = forecast_json(ahead)
    rows = [
        {
            "month": row["month"]
            if row["from"].endswith("-01")
            else f"{row['month']} from the {int(row['from'][-2:])}.",
            **{f"{name[1:]} %": f"{value:.0f}" for name, value in row["devices"].items()},
        }
        for row in found["forecast"]
    ]
    console.print(row_table("devices handed over", rows))
    console.print()
    waits = [wait_words(value) for value in found["waiting_days"].values()]
    console.print(f"Whoever comes in then waits {waits[1]} (10 % at most {waits[0]}, 90 % at most {waits[2]}).")
    still = [f"{value:.0f}" for value in found["open"].values()]
    now_n = len(ahead.months) - 1
    console.print(f"Open after {plural(now_n, 'month')}: {still[1]} ({still[0]} to {still[2]}).")
    seen = f"{plural(ahead.arrived_n, 'device')} in {ahead.seen_days:.0f} days, {ahead.handed_n} handed over"
    console.print(
        f"Played {found['plays']} times from the ledger's own history: {seen}; first come, first printed. Hands take "
        "what they took so far, however many wait.",
        markup=False,
        soft_wrap=True,
    )
