"""The jaws: jaw, pad, post cap."""

from __future__ import annotations

import math

from manifold3d import CrossSection, Manifold, OpType

from sample_parts.dimensions import HERON as D
from sample_parts.solids import bar, bore, plate, rounded

_ADD = OpType.Add


def hook_mm() -> tuple[float, float, float]:
    """Return the middle of the tail's waist, where the pull cord's loop lies."""
    way, thick = math.radians(D.tail_deg), D.clevis_slot - 2 * D.gap
    return D.hook_radius * math.cos(way), D.hook_radius * math.sin(way), (thick / 2 + 0.2) / 2


def jaw() -> Manifold:
    """Return one jaw, its post on the origin; the other is the same part turned over."""
    thick = D.clevis_slot - 2 * D.gap
    half = thick / 2 - 0.2  # the tail keeps to one half of the slot: the other jaw, turned over, has the other
    knuckle = plate(CrossSection.circle(D.jaw_knuckle, 64), thick)
    way = math.radians(D.tail_deg)
    spots = [(r * math.cos(way), r * math.sin(way)) for r in (0.0, D.hook_radius, D.tail_reach)]
    tail = plate(bar(spots, [6.0, 2.0, 2.7]), half).translate((0, 0, thick / 2 - half / 2))
    finger = plate(
        bar([(22.0, 5.0), (36.0, 10.0), (54.0, 9.5), (D.jaw_reach, 2.0)], [5.5, 5.0, 4.4, 3.4]), D.finger_thick
    )
    neck = plate(bar([(0, 0), (22.0, 5.0)], [D.jaw_knuckle - 0.2, 5.0]), thick)
    horn = plate(bar([(27.0, 9.0), D.horn], [2.6, 2.0]), D.finger_thick)
    edge = (5.0, 5.3, 5.2, 5.2)
    teeth = [
        Manifold.cylinder(D.finger_thick, 1.3, 1.3, 24, True).translate((38.4 + 4.4 * k, y, 0))
        for k, y in enumerate(edge)
    ]
    body = Manifold.batch_boolean([knuckle, tail, finger, neck, horn, *teeth], _ADD)
    return body - bore(D.post_bore, 40.0, D.bore_n)


def pad() -> Manifold:
    """Return the soft sleeve that slips over a finger's tip."""
    outside = plate(rounded(24.0, 14.0, 5.0), 14.0, 0.8)
    inside = plate(rounded(40.0, 9.0, 4.0), D.finger_thick + 0.4).translate((10.4, 0, 0))
    return outside - inside


def cap() -> Manifold:
    """Return the cap that covers the end of a post."""
    dome = Manifold.cylinder(D.cap_high - 2.0, D.cap_radius, D.cap_radius, 64)
    top = Manifold.cylinder(2.0, D.cap_radius, D.cap_radius - 2.0, 64).translate((0, 0, D.cap_high - 2.0))
    return dome + top - bore(D.cap_bore, 2 * D.cap_deep, D.bore_n)
