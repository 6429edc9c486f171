"""Heads of screws, and the seats that are sunk for them."""

from __future__ import annotations

from collections.abc import Mapping

HEAD_MM: Mapping[float, float] = {2: 3.8, 2.5: 4.5, 3: 5.5, 4: 7.0, 5: 8.5, 6: 10.0, 8: 13.0}
"""Diameter of a cylinder head by the screw's: ISO 4762, from memory."""
HEAD_ROOM_MM = (-0.25, 1.5)
"""A sunk head's seat is drawn this much wider than the head; common practice, no source."""


def head_fits(seat_mm: float, screw_mm: float) -> bool:
    """Return whether a step is drawn for a screw's head.

    >>> head_fits(6.5, 3.0), head_fits(9.0, 3.0)
    (True, False)
    """
    return HEAD_ROOM_MM[0] <= seat_mm - HEAD_MM.get(screw_mm, 1.8 * screw_mm) <= HEAD_ROOM_MM[1]
