"""Axes that two copies share as they stand, where no hardware is named: bores of both, or a peg of one in the other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import manifold3d
import numpy as np

from planner.assembly import axes_of, coaxial
from planner.finding import Vec3
from planner.job import part_of
from planner.mechanism.places.axis_fits import moved
from planner.mechanism.places.frame import Frame
from planner.mechanism.range.axis_shells import along
from planner.mesh import Solid
from planner.survey import Bore, Survey

FILLED_SHARE = 0.5
"""A peg in its bore fills more of it than this: 0.7 of its diameter."""
TURNED_DEG, ROUND_SHARE = 37.0, 0.97
"""What shares so much with itself turned by this is round; a peg of eight sides is not."""
SIDES_N = 48


@dataclass(frozen=True, slots=True, kw_only=True)
class BareAxis:
    """One axis, in the sense of the second copy's bore where it has one, with a point of it and the bores on it.

    ``peg_mm`` is the diameter of the peg that lies in them; 0 where nothing is drawn that does.
    """

    axis: Vec3
    centre_mm: Vec3
    bores: tuple[tuple[str, str], ...]
    peg_mm: float = 0.0


def bare_axes(pair: tuple[str, str], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> list[BareAxis]:
    """Return every axis on which both copies have a bore."""
    stands, moves = ([moved(bore, frames[copy]) for bore in surveys[part_of(copy)].bores] for copy in pair)
    found = []
    for axis in axes_of(moves):
        met = [bore for bore in stands if coaxial(axis.bores[0], bore)]
        if met:
            first = axis.bores[0]
            names = (*((pair[0], bore.id) for bore in met), *((pair[1], bore.id) for bore in axis.bores))
            found.append(BareAxis(axis=first.axis, centre_mm=first.centre_mm, bores=names))
    return found


def peg_axes(
    pair: tuple[str, str],
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
) -> list[BareAxis]:
    """Return every axis of bores of one copy that a round peg of the other fills, as drawn."""
    found = []
    for owner, other in (pair[::-1], pair):
        peg = solids[part_of(other)].manifold
        if peg is None:
            continue
        peg = peg.transform(frames[other].matrix())
        bores = [moved(bore, frames[owner]) for bore in surveys[part_of(owner)].bores]
        pegs = {bore.id: wide for bore in bores if (wide := peg_mm(peg, bore)) > 0.0}
        for axis in axes_of([bore for bore in bores if bore.id in pegs]):
            first = axis.bores[0]
            names = tuple((owner, bore.id) for bore in axis.bores)
            tightest = min(axis.bores, key=lambda bore: bore.diameter_mm - pegs[bore.id])
            names = ((owner, tightest.id), *(name for name in names if name[1] != tightest.id))
            found.append(BareAxis(axis=first.axis, centre_mm=first.centre_mm, bores=names, peg_mm=pegs[tightest.id]))
    return found


def peg_mm(body: manifold3d.Manifold, bore: Bore) -> float:
    """Return how wide a body is in a bore where it fills half of it or more and is round about its axis; else 0."""
    r, long = bore.diameter_mm / 2, bore.depth_mm
    frame = along(bore.axis, bore.centre_mm)
    room = manifold3d.Manifold.cylinder(long, r, r, SIDES_N).translate((0.0, 0.0, -long / 2))
    inside = body.transform(frame.inverse().matrix()) ^ room
    volume = float(inside.volume())
    if volume < FILLED_SHARE * float(room.volume()):
        return 0.0
    if float((inside ^ inside.rotate((0.0, 0.0, TURNED_DEG))).volume()) < ROUND_SHARE * volume:
        return 0.0
    corners = np.asarray(inside.to_mesh64().vert_properties)[:, :2]
    return 2.0 * float(np.linalg.norm(corners, axis=1).max())
