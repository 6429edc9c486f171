"""What fills the bores that are too wide, so that they can be cut again; bores that cross them stay open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from manifold3d import Manifold

from planner.phrases import listed
from planner.rebore.recut import cylinder, plug, shielded, void
from planner.survey import Bore

Sizes = Mapping[str, float]
"""Sizes as drawn by now, by feature."""

ROOM_MM3 = 0.05
"""What is added may take up to this much of another opening: less is rounding."""
NO_PLUG = "no plug holds there, glue in a bush, or change the drawing"
OPENED_MM = (-2e-3, 0.0, -4e-3, 2e-3)
"""How much wider what crosses a plug is opened: faces that nearly coincide may leave slivers, so others are tried."""
ALONG_COS = 0.95
"""Axes within some 18 degrees of each other run along each other: such bores do not cross."""
ROUND_FACE = 2.0
"""What is more than twice as wide as a bore that opens into it is a round face, as the inside of a tube."""


def fillings(
    body: Manifold, seen: Sequence[Bore], narrowed: Sequence[Bore], sizes: Sizes, factor: float, wider_mm: float
) -> tuple[dict[str, Manifold], dict[str, str]]:
    """Return what fills each bore that is to be narrowed, and why others are left, both by name.

    ``body`` is the part at scale with its bores as drawn, all of them in ``seen``, and ``sizes`` what they are cut to.
    A crossing of two bores that are both filled is filled too; that with any other bore stays open, as wide as it is
    and ``wider_mm`` more.
    """
    left, refused = {bore.id: bore for bore in narrowed}, dict[str, str]()
    while True:
        made = {name: _filling(body, seen, bore, left, sizes, (factor, wider_mm)) for name, bore in left.items()}
        new = {name: why for name, why in made.items() if isinstance(why, str)}
        if not new:
            return {name: one for name, one in made.items() if not isinstance(one, str)}, refused
        refused |= new
        left = {name: bore for name, bore in left.items() if name not in new}


def crossed_by(seen: Sequence[Bore], body: Manifold, bore: Bore, factor: float) -> list[str]:
    """Return the names of the bores that share a hollow with one."""
    return [other.id for other in others(seen, bore) if crosses(bore, other) and _meets(body, bore, other, factor)]


def others(seen: Sequence[Bore], bore: Bore) -> list[Bore]:
    """Return all bores of a part but one and its own steps."""
    return [other for other in seen if bore.id not in (other.id, other.step_of) and bore.step_of != other.id]


def closes(matter: Manifold, near: Sequence[Bore], sizes: Sizes, factor: float) -> str:
    """Return which of some bores, as wide as they are by now, some matter would close, or nothing."""
    for other in near:
        free = cylinder(other, sizes.get(other.id, other.drawn_diameter_mm * factor), other.depth_mm * factor, factor)
        if (matter ^ free).volume() > ROOM_MM3:
            return f"it would close {other.id}"
    return ""


def crosses(bore: Bore, other: Bore) -> bool:
    """Return whether the hollows of two bores may meet without running along each other.

    What is much wider than the bore counts whatever its axis: the bore opens into it.
    """
    axis, along = np.array(bore.axis), np.array(other.axis)
    away = np.array(other.centre_mm) - np.array(bore.centre_mm)
    cos = float(axis @ along)
    if other.drawn_diameter_mm > ROUND_FACE * bore.drawn_diameter_mm:
        return True
    if abs(cos) > ALONG_COS:
        return False
    normal = np.cross(axis, along)
    apart = abs(float(away @ normal)) / float(np.linalg.norm(normal))
    # where each axis comes nearest to the other, measured from its own middle
    mine = (away @ axis - cos * (away @ along)) / (1.0 - cos * cos)
    its = (cos * (away @ axis) - away @ along) / (1.0 - cos * cos)
    wide, its_wide = bore.drawn_diameter_mm / 2, other.drawn_diameter_mm / 2
    return bool(
        apart < wide + its_wide
        and abs(mine) < bore.depth_mm / 2 + its_wide + wide
        and abs(its) < other.depth_mm / 2 + its_wide + wide
    )


def _filling(
    body: Manifold, seen: Sequence[Bore], bore: Bore, filled: Mapping[str, Bore], sizes: Sizes, at: tuple[float, float]
) -> Manifold | str:
    """Return what fills one bore where all of ``filled`` are filled too, or why nothing does.

    ``at`` is the scale, and how much wider what stays open is cut.
    """
    factor, wider_mm = at
    near = [other for other in others(seen, bore) if not shielded(body, bore, other, factor)]
    crossing = [other for other in near if crosses(bore, other)]
    filler = plug(body, bore, factor, crossing)
    if filler is None:
        met = crossed_by(seen, body, bore, factor)
        beside = f"it crosses {listed(met)} and" if met else "a mouth is too curved, or it"
        return f"{beside} opens sideways: {NO_PLUG}"
    for other in crossing:
        if other.id not in filled:
            filler -= void(body, other, factor, bore, wider_mm)
    why = closes(filler, [other for other in near if other not in crossing], sizes, factor)
    return f"{why}: {NO_PLUG}" if why else filler


def _meets(body: Manifold, bore: Bore, other: Bore, factor: float) -> bool:
    """Return whether two bores share a hollow."""
    mine = cylinder(bore, bore.drawn_diameter_mm * factor, bore.depth_mm * factor, factor)
    return bool((mine ^ void(body, other, factor)).volume() > ROOM_MM3)
