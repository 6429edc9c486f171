"""Film hinges: a narrow thin strip right across a part may be meant to bend, so it is asked about, not refused."""

from __future__ import annotations

from planner.rules.fit.walls.lying_floor import LyingFloor
from planner.rules.rule import at_least, at_most, just_reaches, just_within
from planner.survey import Below, ThinPlace

FILM_MOST_MM, BROAD_MOST_MM, LONG_LEAST_MM, SHARE_LEAST = 0.8, 4.0, 6.0, 0.8
"""How thick a film hinge is at most, how far it reaches from plate to plate at most, how long it is at least, and how
much of the section there is thin; common practice, no source."""
FILM_ENDS = ((BROAD_MOST_MM, SHARE_LEAST), (LONG_LEAST_MM, SHARE_LEAST))
"""Extents and shares at which a place begins or ends to be one."""
LAYERS_LEAST = 2.0
"""A film that lies has so many layers at least, one that stands a line; common practice, no source."""
SEE_FILM = (
    "if it is a film hinge that is to bend: print one alone, bend it as in use, and lift the hold with [[override]] "
    "where it holds; if it is to stay stiff, thicken the wall in the mesh"
)


def is_film(
    place: ThinPlace, below: Below | None, factor: float, limit_mm: float, line_mm: float, floor: LyingFloor | None
) -> bool:
    """Return whether a thin place may be a film hinge at a scale: it prints, and all of a section there is thin.

    ``below`` are its extents under the ``limit_mm``, as drawn.
    """
    if below is None or place.beside:
        return False
    thick = place.thickness_mm * factor
    return (
        at_least(thick, _least_mm(place, factor, limit_mm, line_mm, floor))
        and at_most(thick, FILM_MOST_MM)
        and below.breadth_mm * factor < BROAD_MOST_MM
        and not below.length_mm * factor < LONG_LEAST_MM
        and not below.share < SHARE_LEAST
    )


def _least_mm(place: ThinPlace, factor: float, limit_mm: float, line_mm: float, floor: LyingFloor | None) -> float:
    """Return how thin a film may be to be printed at all."""
    lies = floor is not None and floor.holds(place, factor, limit_mm)
    return LAYERS_LEAST * floor.layer_height_mm if lies and floor else line_mm


def film_turns(place: ThinPlace, line_mm: float, floor: LyingFloor | None) -> list[float]:
    """Return the scales at which the thickness of a place begins or ends to be that of a film hinge."""
    least = [line_mm, *([] if floor is None else [LAYERS_LEAST * floor.layer_height_mm])]
    turns = [just_reaches(mm) / place.thickness_mm for mm in least] if place.thickness_mm > 0 else []
    return [*turns, just_within(FILM_MOST_MM) / place.thickness_mm] if place.thickness_mm > 0 else []
