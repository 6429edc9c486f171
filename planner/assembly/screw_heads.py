"""Heads of screws, and the seats that are sunk for them."""

from __future__ import annotations

from collections.abc import Mapping

from planner.survey import Bore, Survey

HEAD_MM: Mapping[float, float] = {2: 3.8, 2.5: 4.5, 3: 5.5, 4: 7.0, 5: 8.5, 6: 10.0, 8: 13.0}
"""Diameter of a cylinder head by the screw's: ISO 4762, from memory; those of ISO 7045 are hardly wider."""
HEAD_ROOM_MM = (-0.25, 1.5)
"""A sunk head's seat is drawn this much wider than the head; common practice, no source."""


SUNK_MM = -0.05
"""A seat that is drawn narrower than its head is for something else."""


def head_mm(screw_mm: float) -> float:
    """Return the diameter of a screw's head; 1.5 d + 1 where the table has not its size.

    >>> [head_mm(d) for d in (2.5, 3.0, 4.0, 12.0)]
    [4.5, 5.5, 7.0, 19.0]
    """
    return HEAD_MM.get(screw_mm, 1.5 * screw_mm + 1.0)


def head_fits(seat_mm: float, screw_mm: float) -> bool:
    """Return whether a step is drawn for a screw's head.

    >>> head_fits(6.5, 3.0), head_fits(9.0, 3.0)
    (True, False)
    """
    return HEAD_ROOM_MM[0] <= seat_mm - head_mm(screw_mm) <= HEAD_ROOM_MM[1]


def sinks(seat_mm: float, screw_mm: float) -> bool:
    """Return whether a screw's head goes into a step as it is drawn, and no more than a head: it is its seat.

    >>> sinks(6.5, 3.0), sinks(5.4, 3.0), sinks(9.0, 3.0)
    (True, False, False)
    """
    return SUNK_MM <= seat_mm - head_mm(screw_mm) <= HEAD_ROOM_MM[1]


def head_seats(survey: Survey, bore: Bore, screw_mm: float) -> tuple[Bore, ...]:
    """Return the wider steps of a bore that are drawn for the head of the screw in it."""
    return tuple(
        step
        for step in survey.stack_of(bore)
        if step.drawn_diameter_mm > bore.drawn_diameter_mm and sinks(step.drawn_diameter_mm, screw_mm)
    )
