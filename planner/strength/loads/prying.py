"""What prying adds to the pull on a screw: a part that is levered off presses on its edge, and the screw holds both.

A part that a screw holds down cannot pass a couple by the screw alone. It turns about the edge of what it lies on:
the screw pulls that much more, M / b, with b from its axis to that edge. Of a load F that acts a beyond the screw
that makes F (a + b) / b (the lever, statics). Where loads between screws leave no couple, a part that bends presses
its edge down beyond the screw: by F m / (2 n) at most, with m from load to screw and n to the edge, no more than 1.25
m (EN 1993-1-8:2005, 6.2.4, the first mode of a T-stub with its hinges beside the web and at the bolts, from memory);
a stiff part adds nothing, so that this is asked.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.assembly import Claim
from planner.finding import Vec3
from planner.strength.loads.load_cases import AT_PLACE_MM
from planner.strength.loads.part_load import LoadCase, PartLoad
from planner.strength.loads.pressed_edges import Edge, Footing, mouth_mm
from planner.survey import Bore

Floats = NDArray[np.float64]
LEAST_SHARE = 1e-3
"""A pull of less than this share of the greatest load is how exactly a mesh tells an axis, 0.06°; no source."""
FARTHEST = 1.25
"""The edge counts as no farther from the screw than so many times the load (EN 1993-1-8:2005, 6.2.4, from memory)."""
SCREWS = ("machine-screw", "wood-screw", "insert")
"""What clamps parts onto each other; a pin does not."""
BENDS = "Does {0} stay flat under its load, or does it bend and press its edge down beyond {1}?"
HOW_FAR = "How far beyond {1} does {0} reach?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pried:
    """The pull along a screw under one load case, out of the part where it is above 0.

    Parameters
    ----------
    known_n
        What is known: the load's own part along the screw, and what its lever adds.
    added_n, edge_mm
        What the lever is known to add, and how far from the screw it presses.
    feared_n, asks
        The most that nobody has ruled out, and what would tell; the same and empty where all is known.
    """

    known_n: float
    added_n: float = 0.0
    edge_mm: float = 0.0
    feared_n: float
    asks: str = ""

    def said(self, part: str) -> str:
        """Say what prying adds, after a load; nothing where it adds nothing."""
        if self.added_n <= 0.0:
            return ""
        return f" ({self.added_n:.3g} N of it because {part} presses on its edge {self.edge_mm:.0f} mm from there)"


def pried(case: LoadCase, claim: Claim, way: Vec3, footing: Footing | None, *, clamps: bool) -> Pried | None:
    """Return what a case pulls along a screw, ``way`` out of the part; None where that is rounding.

    Parameters
    ----------
    clamps
        Whether the screw holds its parts onto each other; a part that turns on it bends it instead.
    """
    out = np.array(way, dtype=float)
    most_n = max(float(np.linalg.norm(load.force_n)) for load in case.every)
    force, couple = _at_mouth(case, claim.bore, out)
    along_n = float(force @ out)
    along_n = along_n if abs(along_n) > LEAST_SHARE * most_n else 0.0
    found = Pried(known_n=along_n, feared_n=along_n)
    if footing is not None and clamps:
        turn_n_mm = float(np.linalg.norm(couple))
        if turn_n_mm > 0.0:
            found = _levered(found, claim, footing.edge(claim, out, np.cross(couple / turn_n_mm, out)), turn_n_mm)
            if found.feared_n - along_n <= LEAST_SHARE * most_n:
                found = Pried(known_n=along_n, feared_n=along_n)
        if along_n > 0.0:
            found = _bent(found, case, claim, out, footing, along_n)
    return found if found.known_n or found.feared_n else None


def in_it(load: PartLoad, bore: Bore) -> bool:
    """Return whether a load comes in by what sits in a bore: by its name, or as near to its middle as a support."""
    if load.over:
        return load.over == bore.id
    return float(np.linalg.norm(np.subtract(load.at_mm, bore.centre_mm))) <= AT_PLACE_MM


def _at_mouth(case: LoadCase, bore: Bore, out: Floats) -> tuple[Floats, Floats]:
    """Return force and couple of what sits in a bore on the part, about its mouth; the couple across its axis."""
    mouth = mouth_mm(bore, out)
    mine = [load for load in case.every if in_it(load, bore)]
    force = np.sum([np.zeros(3), *(np.array(load.force_n) for load in mine)], axis=0)
    turns = (np.cross(np.subtract(load.at_mm, mouth), load.force_n) + load.couple_n_mm for load in mine)
    couple = np.sum([np.zeros(3), *turns], axis=0)
    return force, couple - out * float(couple @ out)


def _levered(plain: Pried, claim: Claim, edge: Edge, turn_n_mm: float) -> Pried:
    """Return a pull with what a couple adds that the edge must take up; a question where that is not known."""
    most_n = plain.known_n + turn_n_mm / edge.least_mm
    asks = HOW_FAR.format(edge.other, claim.hardware.name) if edge.other else ""
    if edge.known_mm is None:
        return replace(plain, feared_n=most_n, asks=asks)
    added_n = turn_n_mm / edge.known_mm
    return Pried(known_n=plain.known_n + added_n, added_n=added_n, edge_mm=edge.known_mm, feared_n=most_n, asks=asks)


def _bent(found: Pried, case: LoadCase, claim: Claim, out: Floats, footing: Footing, along_n: float) -> Pried:
    """Return a pull with the most that a part that bends between load and screw might add."""
    loads = [np.array(load.at_mm) for load in case.pushes if not in_it(load, claim.bore)]
    arms = [off - out * float(off @ out) for off in (np.array(claim.bore.centre_mm) - at for at in loads)]
    arm = min(arms, key=lambda one: float(np.linalg.norm(one)), default=np.zeros(3))
    arm_mm = float(np.linalg.norm(arm))
    if arm_mm <= claim.bore.drawn_diameter_mm / 2.0:
        return found
    edge = footing.edge(claim, out, arm / arm_mm)
    bent_n = along_n * (1.0 + arm_mm / (2.0 * min(edge.least_mm, FARTHEST * arm_mm)))
    if bent_n <= found.feared_n:
        return found
    asks = BENDS.format(claim.part, claim.hardware.name)
    return replace(found, feared_n=bent_n, asks=asks)
