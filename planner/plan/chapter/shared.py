"""Shared: what the jobs of a chapter share beside printers: people and money."""

from __future__ import annotations

from dataclasses import dataclass

from planner.schedule import Helper


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """People, a budget (None: nobody states one), and what else than material a device costs (None: not stated).

    ``labour_per_h`` is paid for an hour of work by hand, ``wear_per_h`` laid aside for an hour of printing,
    ``post_each`` what sending one device costs, ``reserve_percent`` of all that is kept for what nobody foresaw.
    """

    helpers: tuple[Helper, ...] = ()
    budget: float | None = None
    currency: str = "EUR"
    labour_per_h: float | None = None
    wear_per_h: float | None = None
    post_each: float | None = None
    reserve_percent: float | None = None
