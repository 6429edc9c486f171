"""Copies that a ``[[place]]`` puts somewhere: their bodies and bores in the device's frame, at drawn size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import manifold3d
import numpy as np
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from planner.assembly.claim import Claim
from planner.finding import Vec3
from planner.job import Job, PartPlace, copy_name
from planner.mesh import Solid
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class CopiesAtPlaces:
    """Every copy that stands somewhere, by its name: its part, its body and its bores that hardware claims.

    ``whole`` are the parts of which every copy stands somewhere; ``motion`` takes drawn points there (3, 4).
    """

    part: Mapping[str, str]
    body: Mapping[str, manifold3d.Manifold]
    bores: Mapping[str, tuple[tuple[str, Bore], ...]]
    whole: frozenset[str]
    motion: Mapping[str, NDArray[np.float64]] = field(default_factory=dict)

    def claimed(self, hardware: str) -> list[Bore]:
        """Return the bores of all copies that one piece of hardware claims."""
        return [bore for bores in self.bores.values() for name, bore in bores if name == hardware]


def stood(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], factor: float = 1.0) -> CopiesAtPlaces:
    """Return what stands where the job says so.

    A part that keeps its own size is larger or smaller in the drawn frame by the device's scale. Parts whose mesh
    is no body, or that are scaled unevenly, stand nowhere.
    """
    places = {place.part: place for place in job.places}
    part: dict[str, str] = {}
    body: dict[str, manifold3d.Manifold] = {}
    bores: dict[str, tuple[tuple[str, Bore], ...]] = {}
    whole, motion = set[str](), dict[str, NDArray[np.float64]]()
    for one in job.parts:
        own, shape = one.scale_percent, solids[one.name].manifold
        copies = [copy_name(one.name, n) for n in range(1, one.count + 1)]
        if shape is None or isinstance(own, tuple) or any(copy not in places for copy in copies):
            continue
        whole.add(one.name)
        own_factor = 1.0 if own is None else own / 100.0 / factor
        for copy in copies:
            turn, at = _turn(places[copy]), np.asarray(places[copy].at_mm)
            part[copy] = one.name
            motion[copy] = np.column_stack([turn * own_factor, at])
            body[copy] = shape.transform(motion[copy])
            mine = [claim for claim in claims if claim.part == one.name]
            bores[copy] = tuple((claim.hardware.name, _moved(claim.bore, turn, at, own_factor)) for claim in mine)
    return CopiesAtPlaces(part=part, body=body, bores=bores, whole=frozenset(whole), motion=motion)


def _turn(place: PartPlace) -> NDArray[np.float64]:
    """Return a place's turn as a matrix, by the right hand about its axis."""
    *axis, degrees = place.turn
    way = np.asarray(axis) / np.linalg.norm(axis)
    found: NDArray[np.float64] = Rotation.from_rotvec(np.radians(degrees) * way).as_matrix()
    return found


def _moved(bore: Bore, turn: NDArray[np.float64], at: NDArray[np.float64], factor: float) -> Bore:
    """Return a bore as the device sees it: where it lies, which way, how deep."""
    return replace(
        bore,
        axis=as_vector(turn @ np.asarray(bore.axis)),
        centre_mm=as_vector(turn @ np.asarray(bore.centre_mm) * factor + at),
        depth_mm=bore.depth_mm * factor,
    )


def as_vector(values: NDArray[np.float64]) -> Vec3:
    """Return three numbers."""
    x, y, z = values
    return float(x), float(y), float(z)
