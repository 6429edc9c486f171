"""Events of these tests: the Heron's recipients at the invented Millbrook Tool Library."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import uuid4

from planner.ledger import Event

DAY = datetime(2026, 12, 1, 18, 0)


def tell(kind: str, subject: str, at: datetime = DAY, **body: Any) -> Event:
    """Return an event."""
    return Event(key=uuid4().hex, at=at, kind=kind, subject=subject, body=body)


def plate(name: str, mass_g: float = 40.0, **pieces: int) -> dict[str, Any]:
    """Return a planned plate of two hours in green."""
    return {
        "id": name,
        "printer": "bench-1",
        "material": "petg",
        "colour": "green",
        "mass_g": mass_g,
        "duration_s": 7200.0,
        "start": "2026-12-01T17:30:00",
        "end": "2026-12-01T19:30:00",
        "pieces": [{"part": part, "n": n, "made_as": "as drawn", "places": []} for part, n in pieces.items()],
    }


def printed_and_tested(code: str = "R-07") -> list[Event]:
    """Return that both plates of a recipient are printed, and the device passed its test."""
    return [tell("done", f"{code}.1"), tell("done", f"{code}.2"), tell("tested", code, passed=True)]


def chapter(code: str = "R-07") -> list[Event]:
    """Return one recipient with a device of two jaws and a cap, on two plates, and a spool."""
    return [
        tell("spool", "S-1", material="petg", colour="green", lot="L-9", left_g=500.0, printer="bench-1"),
        tell(
            "job",
            code,
            scale_percent=106.5,
            deadline="2026-12-12",
            measures=[{"kind": "width", "length_mm": 58.0, "taken": "2026-10-02"}],
            parts=[{"part": "jaw", "n": 2, "sha256": "a" * 64}, {"part": "cap", "n": 1, "sha256": "b" * 64}],
            overrides=[{"rule": "size.stale", "part": "", "role": "lead", "reason": f"{code} was measured again"}],
        ),
        tell("plates", code, plates=[plate(f"{code}.1", jaw=2), plate(f"{code}.2", 20.0, cap=1)]),
    ]
