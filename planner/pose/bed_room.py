"""How much room a bed has for an outline: the largest scale at which a part lies on it in a pose."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from planner.digits import SLACK_MM
from planner.finding import Vec3
from planner.job import Bed, Printer
from planner.pose.bed_of_any_shape import clear_pieces, largest_on
from planner.survey import circle_mm, largest_factor, shadow_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class BedRoom:
    """The largest scales that a bed allows a part in a pose, 1.0 for the drawn size.

    ``flat_open`` is where it is certain that the outline does not fit; it is more than ``flat_most`` only where zones
    or notches of the bed leave it open whether the part may lie past them.
    """

    flat_most: float
    flat_open: float
    turn_deg: float
    tall_most: float
    height_mm: float

    @property
    def most(self) -> float:
        """The largest scale that fits."""
        return min(self.flat_most, self.tall_most)


def bed_room(hull_mm: NDArray[np.float64], down: Vec3, bed: Bed) -> BedRoom:
    """Return the largest scales at which a part fits a bed; ``hull_mm`` is (n, 3), ``down`` faces the bed."""
    return _bed_room(np.ascontiguousarray(hull_mm, dtype=np.float64).tobytes(), down, bed)


def bed_for(hull_mm: NDArray[np.float64], poses: tuple[Vec3, ...], printers: Sequence[Printer]) -> Bed:
    """Return the first bed on which a part lies in some pose at its drawn size; the very first if on none."""
    beds = [printer.bed for printer in printers]
    return next((bed for bed in beds if any(bed_room(hull_mm, pose, bed).most >= 1.0 for pose in poses)), beds[0])


@lru_cache(maxsize=4096)
def _bed_room(hull: bytes, down: Vec3, bed: Bed) -> BedRoom:
    """Remember the answer: what widens a window asks for the same poses on the same bed many times."""
    outline, height = shadow_mm(np.frombuffer(hull).reshape(-1, 3), down)
    width, depth = (side + SLACK_MM for side in bed.usable_mm)
    tall = (bed.height_mm + SLACK_MM) / height if height > 0 else float("inf")
    flat, turn = (width / circle_mm(outline), 0.0) if bed.shape == "circle" else largest_factor(outline, width, depth)
    if bed.shape != "polygon" and not bed.zones_mm:
        return BedRoom(flat_most=flat, flat_open=flat, turn_deg=turn, tall_most=tall, height_mm=height)
    pieces, whole = clear_pieces(bed)
    best, turn = max((largest_on(outline, piece) for piece in pieces), default=(1e-6, 0.0))
    open_to = best if whole else max(best, flat)
    return BedRoom(flat_most=best, flat_open=open_to, turn_deg=turn, tall_most=tall, height_mm=height)
