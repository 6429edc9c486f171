"""Shared: what the jobs of a chapter share beside printers: people, money, and how firm a plan is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.schedule import MOVES_A_DAY, Helper


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """People, a budget (None: nobody states one), and what else than material a device costs, as far as it is stated.

    ``rates`` are by key of ``[money]``: ``labour_per_h`` is paid for an hour of work by hand, ``wear_per_h`` laid aside
    for an hour of printing, ``post_each`` what sending one device costs, ``reserve_percent`` of all that is kept for
    what nobody foresaw. ``moves_a_day`` plates of the last plan may move for each day late that this saves.
    """

    helpers: tuple[Helper, ...] = ()
    budget: float | None = None
    currency: str = "EUR"
    rates: Mapping[str, float] = field(default_factory=dict)
    moves_a_day: int = MOVES_A_DAY
