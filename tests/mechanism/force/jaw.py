"""A jaw that a cord closes, with numbers that can be worked out by hand."""

from __future__ import annotations

from planner.finding import Vec3
from planner.mechanism.cord.cord_run import run_of
from planner.mechanism.cord.path.path_stop import PathStop, PointStop, WrapStop
from planner.mechanism.cord.small_moves import motions_over
from planner.mechanism.force.driven_joint import DrivenJoint, Mass, Strung
from planner.mechanism.force.elastic import Elastic
from tests.mechanism.cord.hinged import hinge

Z: Vec3 = (0.0, 0.0, 1.0)
ANGLES = [2.5 * k for k in range(25)]
EYE: PathStop = PointStop(copy="base", at_mm=(-40.0, -6.0, 0.0))
HAND: PathStop = PointStop(copy="base", at_mm=(-90.0, 20.0, 0.0))
HOOK: PathStop = PointStop(copy="jaw", at_mm=(0.0, -14.0, 0.0))
DRUM: PathStop = WrapStop(copy="jaw", axis=Z, centre_mm=(0.0, 0.0, 0.0), drawn_mm=14.0, sense=1)
TIED: PathStop = PointStop(copy="jaw", at_mm=(14.0, 0.0, 0.0))


def jaw(
    path: tuple[PathStop, ...] = (HAND, EYE, HOOK),
    *,
    pin_mm: float = 0.0,
    elastics: tuple[tuple[tuple[PathStop, ...], Elastic], ...] = (),
    masses: tuple[Mass, ...] = (),
    factor: float = 1.0,
) -> DrivenJoint:
    """Return a jaw on the origin whose tip lies 60 mm along x at angle 0; pulling lowers its angle."""
    motions = motions_over(hinge, ANGLES)
    return DrivenJoint(
        motions=motions,
        factor=factor,
        moving=frozenset({"jaw"}),
        axis=Z,
        pin_mm=pin_mm,
        pull=Strung(stops=path, run=run_of(path, motions, factor, 1.0)),
        elastics=tuple(
            Strung(stops=way, run=run_of(way, motions, factor, 1.0), elastic=elastic) for way, elastic in elastics
        ),
        tip=("jaw", (60.0, 0.0, 0.0)),
        masses=masses,
    )
