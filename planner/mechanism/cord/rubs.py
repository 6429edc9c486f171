"""Where a cord rubs: bends over what stands still, and wheels that turn with it on an axle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.mechanism.cord.path.path_stop import PathStop, WrapStop
from planner.mechanism.cord.taut import Taut


@dataclass(frozen=True, slots=True, kw_only=True)
class Rub:
    """One place at which friction takes a share of the pull.

    Parameters
    ----------
    number
        The stop.
    bend_rad
        How far the cord turns there.
    axle_ratio
        Radius of the axle over the radius that the cord lies on, where a wheel turns with the cord; 0: it slides.
    """

    number: int
    bend_rad: float
    axle_ratio: float = 0.0


def rubs_of(stops: Sequence[PathStop], cord: Taut, factor: float, cord_mm: float) -> tuple[Rub, ...]:
    """Return where a cord rubs, in order.

    On the copy that it ends at, the cord lies still and rubs on nothing: its last stops there are left out.
    """
    ends_n = next((k for k, stop in enumerate(reversed(stops)) if stop.copy != stops[-1].copy), len(stops))
    moving = len(stops) - ends_n
    found = []
    for contact in cord.contacts:
        if contact.number < moving and contact.bend_rad > 0.0:
            ratio = _axle_ratio(stops[contact.number], factor, cord_mm)
            found.append(Rub(number=contact.number, bend_rad=contact.bend_rad, axle_ratio=ratio))
    return tuple(found)


def _axle_ratio(stop: PathStop, factor: float, cord_mm: float) -> float:
    """Return a wheel's axle radius over its rope radius; 0 for what does not turn."""
    if not isinstance(stop, WrapStop) or stop.axle_mm is None:
        return 0.0
    return stop.axle_mm / (stop.drawn_mm * factor + stop.bought_mm + cord_mm / 2)
