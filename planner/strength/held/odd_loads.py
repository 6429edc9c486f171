"""Why a part would take many times what breaks it: what of its loads, or of what holds it, cannot be meant."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from planner.mechanism import Landing
from planner.phrases import numbers
from planner.strength.loads.part_load import LoadCase, PartLoad

ABSURD_PERCENT = 1000.0
"""Ten times what breaks a part: a share over it is no figure to choose a material by; no source."""
ABSURD_FROM_SHARE = 6.25
"""At the least scale that is judged, 0.4, a part takes so many times its share as drawn."""
TIMES = 10.0
"""No force of a device is so many times what it carries but by a cord or lever near its dead point; no source."""


def odd_loads(landing: Landing, part: str, case: LoadCase, load_n: float) -> str:
    """Return in words what cannot be meant about a case of a part whose device carries ``load_n``; empty if all may be.

    In order: what is no one body, what acts or holds where no matter is, and a force that is many times the load.
    """
    return "; ".join(dict.fromkeys([*_pieces(landing, part), *_off(landing, part, case), *_too_much(case, load_n)]))


def _pieces(landing: Landing, part: str) -> Iterator[str]:
    """Yield that a mesh is in several bodies: no force goes from one to the other."""
    body = landing.solids[part].manifold
    pieces = 1 if body is None else len(body.decompose())
    if pieces > 1:
        yield f"the mesh of {part} is in {pieces} bodies that do not touch: no load goes from one to another"


def _off(landing: Landing, part: str, case: LoadCase) -> Iterator[str]:
    """Yield what acts or holds where no matter is."""
    copy = next(iter(case.copies), part)
    for each, said in ((case.pushes, "a load"), (case.answers, "what holds it")):
        for one in each:
            name = f"{said} ({one.over})" if one.over else said
            if words := landing.off_words(copy, one.at_mm, name):
                yield words


def _too_much(case: LoadCase, load_n: float) -> Iterator[str]:
    """Yield the greatest force that is many times what the device carries."""
    one = max((*case.pushes, *case.answers), key=_size_n)
    if _size_n(one) > TIMES * load_n:
        on = f" on {one.over}" if one.over else ""
        yield (
            f"{load_n:g} N that the device carries make {_size_n(one):,.0f} N{on} at [{numbers(one.at_mm)}] mm: the "
            "arm of a cord's path, or the distance between what holds the part, is next to nothing there"
        )


def _size_n(one: PartLoad) -> float:
    """Return how great a force is."""
    return float(np.linalg.norm(one.force_n))
