"""Wide sections under loads that enter over less than their width: the strip that takes such a load up.

A flat plate does not bend as a beam of its full width under a force at one place: moments in it stay as great however
wide it is. Three solutions give the width that counts for a moment F a at a distance a from the force:

- A force at the free edge of an infinitely long cantilever plate takes 0.51 F at the wall (Jaramillo 1950, Journal of
  Applied Mechanics 17; found again in the tests): 1.96 a. Where the plate ends within about that width, its edges take
  more: 1.7 a holds for all widths, by plates of Morley elements of our own. A force that enters over a width w is
  taken as over both at right angles; at an edge or a corner the strip ends there, twisted by what lies beside it.
- A force between supports takes q = a b / (a + b) of moment: over 2.4 q and its own width (as AS 3600 has it; about
  Westergaard 1930, Public Roads 11, from memory), with 2 q so that forces near a free edge hold, too, by
  the same plates.
- About a stiff disc of D that holds a plate the moment M is at most 0.155 M over D / 2 (Roark's Formulas for Stress and
  Strain, plates with a trunnion, from memory): some 3 D.

Only what bends is spread so. A pull spreads alike (Flamant 1892: over π a / 2), but a diameter away from its bore it is
less than 0.4 of the pressure on the bore's wall, which is judged.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.strength.beam.cut_forces import LEAST_N, Cut, rows_of, summed
from planner.strength.beam.skin_and_core import Band, Zones
from planner.strength.loads.part_load import PartLoad, as_vec

Floats = NDArray[np.float64]
AT_END = 1.7
"""Width for each distance from a force that nothing lies beyond."""
BETWEEN = 2.0
"""Width for each q of a force between supports."""
HELD_SHARE = 0.25
"""Nearer to a load than this share of what it enters over, a cut goes through the place where it enters."""
LEAST_TWIST = 1e-6
FLAT = 2.0
"""A strip less than so many times as wide as thick lies in the dent about the load, where nothing bends as a plate."""
COVERED = 0.02
"""A strip that leaves out less than this share of a section's width leaves out nothing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strip:
    """What of a section takes up one load, and that load.

    Parameters
    ----------
    band
        The section between two lines of the cut's plane is the strip.
    part
        What the strip alone takes up.
    loads
        All that the section carries, ``part`` among it.
    wide_mm
        How much of the section's width the strip has.
    """

    band: Band
    part: tuple[PartLoad, ...]
    loads: tuple[PartLoad, ...]
    wide_mm: float

    def zones(self, whole: Zones) -> Zones:
        """Return the strip of a section."""
        return whole.within(self.band)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Linear:
    """Stress that rises straight over a section: pull at a centre, its rise, and the shear of torsion about it."""

    centre_mm: Floats
    pull_mpa: float
    rise_mpa_per_mm: Floats
    twist_mpa: float

    def tensors_mpa(self, places_mm: Floats) -> Floats:
        """Return stresses (n, 3, 3) at places of the plane, in the cut's axes."""
        off = places_mm - self.centre_mm
        tensors = np.zeros((len(off), 3, 3))
        tensors[:, 2, 2] = self.pull_mpa + off @ self.rise_mpa_per_mm
        tangents = np.column_stack([-off[:, 1], off[:, 0]])
        long = np.linalg.norm(tangents, axis=1)
        tensors[:, 2, :2] = self.twist_mpa * tangents / np.where(long > 0.0, long, 1.0)[:, None]
        tensors[:, :2, 2] = tensors[:, 2, :2]
        return tensors

    def all_over(self, zones: Zones) -> tuple[Floats, Floats]:
        """Return places of a section and the stresses there (n, 3, 3): corners, and the edge if it is twisted."""
        if not self.twist_mpa:
            return zones.corners_mm, self.tensors_mpa(zones.corners_mm)
        torsion = zones.torsion
        places = np.vstack([zones.corners_mm, torsion.places_mm])
        tensors = replace(self, twist_mpa=0.0).tensors_mpa(places)
        edge = self.twist_mpa / torsion.shear_mpa_per_n_mm * torsion.edge_mpa_per_n_mm
        tensors[len(zones.corners_mm) :, 2, :2] = edge
        tensors[:, :2, 2] = tensors[:, 2, :2]
        return places, tensors


def linear(zones: Zones, cut: Cut, loads: Sequence[PartLoad]) -> tuple[Linear, float]:
    """Return the pull and bending of loads in a section by Navier's formula, and the moment in N mm that twists it."""
    moments = zones.moments
    force, moment = summed(cut, loads, cut.at_mm + moments.centre_mm @ cut.axes[:2])
    rise = np.linalg.solve(moments.about_centre_mm4, np.array([-moment[1], moment[0]]))
    return Linear(
        centre_mm=moments.centre_mm,
        pull_mpa=float(force[2] / moments.area_mm2),
        rise_mpa_per_mm=rise,
        twist_mpa=0.0,
    ), float(moment[2])


def in_strip(
    strip: Strip, whole: Zones, cut: Cut, side: tuple[Linear, float] | None = None, least_mpa: float = 0.0
) -> tuple[Linear, Zones] | None:
    """Return the stress in a strip: its own load on it alone, the others on the whole section; None if it is empty.

    ``side`` is what all loads on its side do to the whole section, where that is known: many strips have one side.
    Torsion is left out where it surely shears by less than ``least_mpa``.
    """
    zones = strip.zones(whole)
    if zones.moments.area_mm2 <= 0.0 or not len(zones.corners_mm):
        return None
    own, own_twist = linear(zones, cut, strip.part)
    every, all_twist = side or linear(whole, cut, strip.loads)
    less, its_twist = linear(whole, cut, strip.part)
    # Two loads far off a cut's middle may twist it against each other: signs count.
    others = all_twist - its_twist if abs(all_twist - its_twist) > LEAST_TWIST else 0.0
    own_twist = own_twist if abs(own_twist) > LEAST_N else 0.0
    twist = zones.twist_mpa(own_twist, least_mpa / 2.0) + whole.twist_mpa(others, least_mpa / 2.0)
    rise = own.rise_mpa_per_mm + every.rise_mpa_per_mm - less.rise_mpa_per_mm
    # Both stresses of the whole rise from one centroid: there they differ by their pulls alone.
    off = own.centre_mm - every.centre_mm
    at_centre = every.pull_mpa - less.pull_mpa + float(off @ (every.rise_mpa_per_mm - less.rise_mpa_per_mm))
    return Linear(
        centre_mm=own.centre_mm,
        pull_mpa=own.pull_mpa + at_centre,
        rise_mpa_per_mm=rise,
        twist_mpa=twist,
    ), zones


def strips_of_cut(cut: Cut, zones: Zones, pressing: Sequence[PartLoad], every: Sequence[PartLoad]) -> Iterator[Strip]:
    """Yield the strips that take up the loads beyond a cut, and those before it; ``every`` is empty for a piece."""
    yield from strips_of(cut, zones, pressing, every)
    if every:
        yield from strips_of(cut, zones, [one for one in every if one not in pressing])


def strips_of(cut: Cut, zones: Zones, side: Sequence[PartLoad], every: Sequence[PartLoad] = ()) -> Iterator[Strip]:
    """Yield the strips of a section that take up loads which enter over less than its width.

    Parameters
    ----------
    side
        The loads on one side of the cut.
    every
        All loads of the case, where those between supports count, too.
    """
    across_mm, loads = zones.across_mm, tuple(side)
    fars = [abs(far_mm) for far_mm in _fars_mm(cut, loads)]
    near = [
        (one, far_mm)
        for one, far_mm in zip(loads, fars, strict=True)
        if one.spread_mm is not None and AT_END / 2.0 * far_mm < across_mm
    ]
    between = [(one, q_mm) for one, q_mm in _between_mm(cut, every) if BETWEEN / 2.0 * q_mm < across_mm]
    if not near and not between:
        return
    normal, ways = cut.axes[2], zones.ways
    moment = _moment_n_mm(cut, zones, loads)
    for k in (0, 1):
        bends, along = ways[k], ways[1 - k]
        whole_n_mm = float(moment @ along)
        for one, far_mm in near:
            void_mm = _void_mm(cut, zones, one, along)
            if far_mm < HELD_SHARE * max(one.width_mm(normal), void_mm):
                continue
            wide = math.hypot(max(one.width_mm(along @ cut.axes[:2]), void_mm), AT_END * far_mm)
            if band := _band(cut, zones, one, along, wide):
                part = _bent(cut, one, bends, along)
                passes = whole_n_mm / (float(_moment_n_mm(cut, zones, [part]) @ along) or math.inf)
                if passes > 0.0:
                    yield Strip(band=band[0], part=(_shared(part, passes),), loads=loads, wide_mm=band[1])
        for one, q_mm in between:
            width_mm = max(one.width_mm(along @ cut.axes[:2]), _void_mm(cut, zones, one, along))
            wide = width_mm + BETWEEN * q_mm + AT_END * abs(_far_mm(cut, one))
            if band := _band(cut, zones, one, along, wide):
                part = _as_between(cut, one, bends, q_mm)
                passes = whole_n_mm / (float(_moment_n_mm(cut, zones, [part]) @ along) or math.inf)
                if passes > 0.0:
                    yield Strip(band=band[0], part=(_shared(part, passes),), loads=loads, wide_mm=band[1])


def _band(cut: Cut, zones: Zones, one: PartLoad, along: Floats, wide_mm: float) -> tuple[Band, float] | None:
    """Return the band about a load, and the width of the section in it.

    None where it leaves nothing out of the section, or is narrower than thick.
    """
    at = cut.axes[:2] @ (np.array(one.at_mm) - cut.at_mm)
    across = np.array([-along[1], along[0]])
    first_mm, last_mm = zones.reach_mm(along)
    middle_mm = float(at @ along)

    def leaves_out(half_mm: float) -> bool:
        low_mm, high_mm = middle_mm - half_mm, middle_mm + half_mm
        return max(low_mm - first_mm, 0.0) + max(last_mm - high_mm, 0.0) > COVERED * (last_mm - first_mm)

    if not leaves_out(wide_mm / 2.0):
        return None
    half_mm = wide_mm / 2.0 + zones.off_mm(at, across)
    if not leaves_out(half_mm):
        return None
    band = Band.of(along, middle_mm - half_mm, middle_mm + half_mm)
    strip = zones.bare_within(band)
    if strip.whole.area <= 0.0:
        return None
    (low_mm, high_mm), (thin, thick) = strip.reach_mm(along), strip.reach_mm(across)
    wide = high_mm - low_mm
    return (band, wide) if wide >= FLAT * (thick - thin) else None


def _void_mm(cut: Cut, zones: Zones, one: PartLoad, along: Floats) -> float:
    """Return how wide the hole of a section is that a load lies in, or above; 0 where there is none.

    What brings it into the part fills that hole, as a pin does: it cannot enter over less, wherever it is stated. Else
    a cut right beside a point on a pin's axis leaves a sliver of the rim to bear it.
    """
    at = cut.axes[:2] @ (np.array(one.at_mm) - cut.at_mm)
    off_mm = zones.off_mm(at, np.array([-along[1], along[0]]))
    first_mm, last_mm = zones.reach_mm(along)
    return 2.0 * off_mm if first_mm < float(at @ along) < last_mm else 0.0


def _far_mm(cut: Cut, one: PartLoad) -> float:
    """Return how far a load lies beyond a cut."""
    return float((np.array(one.at_mm) - cut.at_mm) @ cut.axes[2])


def _fars_mm(cut: Cut, loads: Sequence[PartLoad]) -> list[float]:
    """Return how far loads lie beyond a cut."""
    return [float(far) for far in (rows_of(tuple(loads))[0] - cut.at_mm) @ cut.axes[2]] if loads else []


def _moment_n_mm(cut: Cut, zones: Zones, loads: Sequence[PartLoad]) -> Floats:
    """Return the moment (2,) of loads about the two axes of the plane, through the section's centroid."""
    return summed(cut, loads, cut.at_mm + zones.moments.centre_mm @ cut.axes[:2])[1][:2]


def _bent(cut: Cut, one: PartLoad, bends: Floats, along: Floats) -> PartLoad:
    """Return what of a load bends a section one way: its force that way, and its couple about the other.

    The pull of what enters over a known place counts too, as it may lie off the section's middle.
    """
    in_plane, about = bends @ cut.axes[:2], along @ cut.axes[:2]
    force = (np.array(one.force_n) @ in_plane) * in_plane
    if one.spread_mm:
        force = force + (np.array(one.force_n) @ cut.axes[2]) * cut.axes[2]
    couple = (np.array(one.couple_n_mm) @ about) * about
    return replace(one, force_n=as_vec(force), couple_n_mm=as_vec(couple))


def _shared(part: PartLoad, passes: float) -> PartLoad:
    """Return what of a load goes through a cut: other loads on its side take up some, as a wall at both ends does."""
    share = min(passes, 1.0)
    force, couple = share * np.array(part.force_n), share * np.array(part.couple_n_mm)
    return replace(part, force_n=as_vec(force), couple_n_mm=as_vec(couple))


def _between_mm(cut: Cut, every: Sequence[PartLoad]) -> Iterator[tuple[PartLoad, float]]:
    """Yield q = a b / (a + b) of each load that others push back on both its sides, nearer than a and b of the cut."""
    if not every:
        return
    normal, fars = cut.axes[2], np.array(_fars_mm(cut, every))
    pushes = np.array([one.force_n for one in every])
    in_plane = pushes - (pushes @ normal)[:, None] * normal
    for one, at, back in zip(every, fars, in_plane @ pushes.T < -LEAST_N, strict=True):
        if one.spread_mm is None:
            continue
        off = fars[back] - at
        before, beyond = -off[off < -LEAST_N], off[off > LEAST_N]
        if len(before) and len(beyond) and (at < before.min() if at > 0.0 else -at < beyond.min()):
            yield one, float(before.min() * beyond.min() / (before.min() + beyond.min()))


def _as_between(cut: Cut, one: PartLoad, bends: Floats, q_mm: float) -> PartLoad:
    """Return the moment that a load between supports alone gives at its place, as a couple beyond the cut."""
    in_plane = bends @ cut.axes[:2]
    pushed = (np.array(one.force_n) @ in_plane) * in_plane
    at = np.array(one.at_mm) - _far_mm(cut, one) * cut.axes[2]
    return PartLoad(
        at_mm=as_vec(at), force_n=(0.0, 0.0, 0.0), couple_n_mm=as_vec(np.cross(q_mm * cut.axes[2], -pushed))
    )
