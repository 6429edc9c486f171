"""How much of the strength the cuts of a way may take at notches, which sections do not see."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from planner.mesh import Solid
from planner.strength.beam.cut_forces import LEAST_N
from planner.strength.beam.cut_shapes import printed_zones
from planner.strength.beam.cut_stress import UNTWISTED, shear_strength_mpa
from planner.strength.beam.entering_strips import linear
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.ways.notches import RATIO_MOST, Notch, inner_edges, notches_of
from planner.strength.beam.ways.pressed_notch import (
    NEAR_SHARE,
    blunted,
    end_mm,
    off_mm,
    pin_ratio,
    pins_pull_n,
    short_end_ratio,
)
from planner.strength.beam.ways.worst_of_way import Judged, Loads
from planner.strength.criterion import index

SPACING_SHARE = 1.05
"""A notch is that of cuts no farther from it than cuts lie apart: that on its thin side may be the farther one."""
ROOM = 1e-3
THINNEST_PIN = 0.1
"""No bore that a pin pulls at is narrower for its lug than this share, where cuts to look at are chosen; no source."""


def notched_share(
    solid: Solid, found: Sequence[Judged], cases: Sequence[Loads], stuff: BeamStuff, apart_mm: float
) -> float:
    """Return the greatest root of the index that the notches of some cuts may raise it to; 0 without any.

    ``cases`` are all loads of each case: a pin's counts on either side of a cut through its bore.

    Cuts that not even the sharpest notch could make the worst are not looked at, so that few are.
    """
    most, known, pin_most = 0.0, dict[int, list[Notch]](), pin_ratio(THINNEST_PIN) * short_end_ratio(0.0)
    reach_mm = NEAR_SHARE * float(inner_edges(solid).radius_mm.max(initial=0.0))
    for one in sorted(found, key=lambda each: -each.index_ratio):
        if one.index_ratio**0.5 * pin_most <= most * (1.0 + ROOM):
            break
        pinned = any(load.over and abs(off_mm(one.cut, load)) < reach_mm for load in cases[one.case_k])
        ratio_most = pin_most if pinned else RATIO_MOST
        if one.index_ratio**0.5 * ratio_most <= most * (1.0 + ROOM):
            continue
        key = id(one.shape)
        if key not in known:
            known[key] = notches_of(solid, one.cut, one.shape, SPACING_SHARE * apart_mm, curved=one.curve is not None)
        for notch in known[key]:
            pull_n = pins_pull_n(one.cut, notch, cases[one.case_k]) if pinned else 0.0
            if one.index_ratio**0.5 * (ratio_most if pull_n else notch.ratio) > most:
                most = max(most, _at_root(one, notch, stuff, pull_n, solid))
    return most


def _at_root(one: Judged, notch: Notch, stuff: BeamStuff, pin_n: float, solid: Solid) -> float:
    """Return the root of the index at a notch's root, raised: sections rise straight to it.

    What a pin in a bore pulls with, in N, is raised by more than what goes past the bore, and by still more where the
    part ends soon beyond it.
    """
    zones = printed_zones(one.shape, one.cut, stuff, 1.0)
    told, twist_n_mm = linear(zones, one.cut, one.loads)
    least_mpa = UNTWISTED * one.index_ratio**0.5 * shear_strength_mpa(stuff)
    told = replace(told, twist_mpa=zones.twist_mpa(twist_n_mm if abs(twist_n_mm) > LEAST_N else 0.0, least_mpa))
    places = np.vstack([zones.corners_mm, notch.places_mm])
    tensors = one.cut.axes.T @ told.tensors_mpa(places) @ one.cut.axes
    roots = np.sqrt(index(tensors, np.array(stuff.normal), stuff.strengths))
    corners_n = len(zones.corners_mm)
    whole, root = float(roots[:corners_n].max(initial=0.0)), float(roots[corners_n:].max())
    # Strips, curves and shear are in the cut's own share, and not in the straight line: they raise the root alike.
    raised = notch.ratio * one.index_ratio**0.5 * min(root / whole, 1.0) if whole > 0.0 else 0.0
    pull_mpa = min(abs(pin_n) / zones.moments.area_mm2, told.pull_mpa)
    if pull_mpa <= 0.0:
        return raised
    low, high = zones.reach_mm(notch.out)
    beyond_mm = end_mm(solid.vertices_mm, one.cut, notch, pin_n, high - low)
    pinned = pin_ratio(2.0 * notch.radius_mm / (high - low)) * short_end_ratio(beyond_mm / (high - low))

    more = blunted(pinned, notch.radius_mm) - notch.ratio
    tensor = pull_mpa * np.outer(one.cut.axes[2], one.cut.axes[2])
    own = float(np.sqrt(index(tensor, np.array(stuff.normal), stuff.strengths)))
    return raised + max(more, 0.0) * own
