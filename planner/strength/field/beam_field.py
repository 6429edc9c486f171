"""The share of the strength over a part's surface by beam formulas: each place by its own cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.mesh import Solid
from planner.strength.beam.beam_pass import cuts_of_all_ways
from planner.strength.beam.curved.curved_bending import fibre_constants
from planner.strength.beam.curved.curved_way import Curve, limbs_of
from planner.strength.beam.cut_forces import LEAST_N, Cut, beyond, summed
from planner.strength.beam.cut_shapes import printed_zones
from planner.strength.beam.entering_strips import in_strip, strips_of_cut
from planner.strength.beam.legs.portal import joined_legs, legs_at, portal_of
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones
from planner.strength.beam.ways.worst_of_way import is_no_section
from planner.strength.criterion import share_percent
from planner.strength.loads.part_load import LoadCase, PartLoad

Floats = NDArray[np.float64]
GAP_CUTS_N = 2
"""Between cuts so many steps apart nothing is told: those between them were empty or a part's edge."""
BESIDE_STEPS = 0.5
"""So many steps beside a cut's box a place still belongs to it, as outlines run on between cuts; no source."""
CARRIED_N = 11
NO_EDGE = np.zeros((0, 4))
"""Of a cut that nothing twists."""
NEAREST_SHARE = 0.1
"""No fibre is told to be nearer to the centre of a bend than this share of the radius through the centroid."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamWay:
    """The cuts across one way of a load.

    Parameters
    ----------
    start_mm, axes
        Where the way begins; rows: two in the plane of every cut, then the way's own direction.
    along_mm
        Of each cut, from the start.
    carried
        Of each cut: pull in MPa, its rise along both axes in MPa/mm, the centroid in the plane in mm, the low and high
        ends of the box about it, in mm, and how its limb is curved, as a vector to the centre of one over the radius,
        in 1/mm. Not numbers where the cut's sides come apart: each piece carries its own loads there, which places
        between cuts do not tell.
    edges
        Of each cut: places all along its edge, in mm, and the shear of torsion there, in MPa: (cuts, places, 4), not
        numbers where a cut has fewer places or is not twisted.
    """

    start_mm: Floats
    axes: Floats
    along_mm: Floats
    carried: Floats
    edges: Floats

    def tensors_mpa(self, points_mm: Floats) -> tuple[Floats, Floats]:
        """Return stresses (n, 3, 3) at places, as between the two nearest cuts, and which places lie between cuts."""
        own = (points_mm - self.start_mm) @ self.axes.T
        right = np.clip(np.searchsorted(self.along_mm, own[:, 2]), 1, len(self.along_mm) - 1)
        span = self.along_mm[right] - self.along_mm[right - 1]
        share = np.clip((own[:, 2] - self.along_mm[right - 1]) / span, 0.0, 1.0)[:, None]
        carried = (1.0 - share) * self.carried[right - 1] + share * self.carried[right]
        off = own[:, :2] - carried[:, 3:5]
        tensors = np.zeros((len(own), 3, 3))
        nearer = np.maximum(1.0 - (off * carried[:, 9:11]).sum(axis=1), NEAREST_SHARE)
        tensors[:, 2, 2] = (carried[:, 0] + (off * carried[:, 1:3]).sum(axis=1)) / nearer
        tensors[:, 2, :2] = self._twists_mpa(np.where(share[:, 0] < 0.5, right - 1, right), own[:, :2])
        tensors[:, :2, 2] = tensors[:, 2, :2]
        step = (1.0 + 1e-9) * np.diff(self.along_mm).min()
        inside = (own[:, 2] >= self.along_mm[0] - step) & (own[:, 2] <= self.along_mm[-1] + step)
        reach = BESIDE_STEPS * step
        of_cut = (own[:, :2] >= carried[:, 5:7] - reach) & (own[:, :2] <= carried[:, 7:9] + reach)
        return self.axes.T @ tensors @ self.axes, inside & (span <= GAP_CUTS_N * step) & of_cut.all(axis=1)

    def _twists_mpa(self, cut_n: NDArray[np.int64], places_mm: Floats) -> Floats:
        """Return the shear of torsion (n, 2) at places of cuts, as at the nearest place of the cut's edge."""
        found = np.zeros((len(places_mm), 2))
        for number in np.unique(cut_n):
            edge = self.edges[number]
            edge = edge[np.isfinite(edge[:, 0])]
            if len(edge):
                of_it = cut_n == number
                found[of_it] = edge[cKDTree(edge[:, :2]).query(places_mm[of_it])[1], 2:]
        return found


def beam_ways(solid: Solid, case: LoadCase, stuff: BeamStuff, factor: float) -> tuple[BeamWay, ...]:
    """Return the cuts of a part across the ways of a load, at a scale but with places and stresses of drawn size."""
    return tuple(_ways(solid, case, stuff, factor))


def _ways(solid: Solid, case: LoadCase, stuff: BeamStuff, factor: float) -> Iterator[BeamWay]:
    """Yield every way that two cuts or more go across."""
    for way, _, cuts, _ in cuts_of_all_ways(solid, [case]):
        start = np.array(way[0])
        along, rows, stripped, axes = [], [], [], np.eye(3)
        edges, of_strips = list[Floats](), list[Floats]()
        largest_mm2 = max((shape.area for _, shape, _ in cuts), default=0.0)
        limbs, legs = limbs_of(solid, way) if cuts else None, joined_legs(cuts, solid.vertices_mm)
        for cut, shape, pieces in cuts:
            pressing = beyond(cut, case.balanced)
            if is_no_section(cut, shape, pressing, largest_mm2):
                continue
            axes = cut.axes
            along.append(float((cut.at_mm - start) @ axes[2]))
            if pieces.each:
                rows.append([np.nan] * CARRIED_N)
                stripped.append([np.nan] * CARRIED_N)
                edges.append(NO_EDGE)
                of_strips.append(NO_EDGE)
                continue
            zones = printed_zones(shape, cut, stuff, factor)
            moments = zones.moments
            about = cut.at_mm + moments.centre_mm @ cut.axes[:2]
            force, moment = summed(cut, pressing, about)
            curve = limbs.curve(cut, shape) if limbs else None
            fibres = _fibres(zones, curve, float(force[2]), np.array([-moment[1], moment[0]]))
            portal = portal_of(zones, legs_at(legs, cut))
            turn_n_mm = float(moment[2]) * (1.0 if portal is None else portal.twist_share)
            edges.append(_edge(zones, turn_n_mm) if abs(moment[2]) > LEAST_N else NO_EDGE)
            bent = (0.0, 0.0) if curve is None else curve.inward / curve.radius_mm(moments.centre_mm[None])[0]
            rows.append([*fibres, *moments.centre_mm, *shape.bounds, *bent])
            strip, edge = _of_strip(cut, zones, pressing, case, stuff)
            stripped.append(strip)
            of_strips.append(edge)
        if len(rows) > 1:
            for each, edge_of in ((rows, edges), (stripped, of_strips)):
                if each is rows or np.isfinite(stripped).any():
                    yield BeamWay(
                        start_mm=start,
                        axes=axes,
                        along_mm=np.array(along),
                        carried=np.array(each),
                        edges=_of_one_length(edge_of),
                    )


def _edge(zones: Zones, turn_n_mm: float) -> Floats:
    """Return places along the edge of a section, and the shear there of a twisting moment: (n, 4)."""
    torsion = zones.torsion
    return np.hstack([torsion.places_mm, turn_n_mm * torsion.edge_mpa_per_n_mm])


def _of_one_length(edges: Sequence[Floats]) -> Floats:
    """Return rows of cuts as one array, filled up with what is no number."""
    found = np.full((len(edges), max(len(one) for one in edges), 4), np.nan)
    for row, one in zip(found, edges, strict=True):
        row[: len(one)] = one
    return found


def _fibres(zones: Zones, curve: Curve | None, pull_n: float, bends_n_mm: Floats) -> Floats:
    """Return pull in MPa and its rise in MPa/mm: Navier's, or where a limb is curved Winkler and Bach's constants."""
    if curve is not None:
        return fibre_constants(zones, curve, pull_n, bends_n_mm)
    rise = np.linalg.solve(zones.moments.about_centre_mm4, bends_n_mm)
    return np.array([pull_n / zones.moments.area_mm2, *rise])


def _of_strip(
    cut: Cut, zones: Zones, pressing: Sequence[PartLoad], case: LoadCase, stuff: BeamStuff
) -> tuple[list[float], Floats]:
    """Return what the strip carries that takes most, of those that take up a load, and its edge; no numbers without."""
    most, row, edge = 0.0, [np.nan] * CARRIED_N, NO_EDGE
    for strip in strips_of_cut(cut, zones, pressing, case.balanced):
        carried = in_strip(strip, zones, cut)
        if carried is None:
            continue
        stress, own = carried
        tensors = cut.axes.T @ stress.all_over(own)[1] @ cut.axes
        share = float(share_percent(tensors, np.array(stuff.normal), stuff.strengths).max())
        if share > most:
            rise, centre = stress.rise_mpa_per_mm, stress.centre_mm
            most, row = share, [stress.pull_mpa, *rise, *centre, *own.whole.bounds, 0.0, 0.0]
            turn_n_mm = stress.twist_mpa / own.torsion.shear_mpa_per_n_mm if stress.twist_mpa else 0.0
            edge = _edge(own, turn_n_mm) if turn_n_mm else NO_EDGE
    return row, edge


def beam_shares(ways: tuple[BeamWay, ...], stuff: BeamStuff, points_mm: Floats) -> Floats:
    """Return the share at places, in percent at drawn size: the most of all ways; not a number where no cut goes."""
    found = np.full(len(points_mm), np.nan)
    for way in ways:
        tensors, inside = way.tensors_mpa(points_mm)
        share = share_percent(tensors, np.array(stuff.normal), stuff.strengths)
        found = np.fmax(found, np.where(inside, share, np.nan))
    return found
