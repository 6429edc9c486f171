"""Events: what the journal holds. Everything that a ledger knows was told in one of these lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

LOG_KINDS = ("tested", "spoilt", "asked", "complained", "repaired", "ended")
"""What happens to a device once its pieces are there: the lines of its log."""
KINDS = (
    *("job", "person", "printer", "spool", "plates"),
    *("started", "done", "failed", "weighed", "retired", "nozzle", "measured", "blocked"),
    *("bought", "fitted", "handed", "note", "forget", "backup"),
    *LOG_KINDS,
)
ROLES = ("maker", "tester", "fitter", "lead")
"""Who tells an event: what a person does, never who it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line of the journal.

    ``key`` is made once by whoever tells it: sent again, it is not taken again. ``at`` is when it happened, by the
    clock on the wall; ``subject`` what it is about: a code, a plate, a spool, an item.
    """

    key: str
    at: datetime
    kind: str
    subject: str
    role: str = "maker"
    body: Mapping[str, Any] = field(default_factory=dict)
