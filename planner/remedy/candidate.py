"""A way that may help: edits of the job, not yet tried."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from planner.job import CureKind, Edit
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Stand

FREE = Costs(minutes_min=0.0, money=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One way; ``why_not`` says why it cannot even be tried, ``part`` is empty where it is about the device."""

    kind: CureKind
    text: str
    does: tuple[Edit, ...] = ()
    part: str = ""
    costs: Costs = FREE
    why_not: str = ""


class Way(Protocol):
    """What yields candidates of one kind, that of least effort first."""

    def __call__(self, stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:
        """Yield the candidates for a group of findings."""
