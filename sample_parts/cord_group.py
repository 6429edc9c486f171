"""The cords' way: pulley, brackets, links, yoke, anchor, guide, buckle, knob."""

from __future__ import annotations

import math

from manifold3d import CrossSection, Manifold

from sample_parts.dimensions import HERON as D
from sample_parts.solids import bar, bent_tube, bore, plate, rounded, slot_outline


def pulley() -> Manifold:
    """Return a grooved wheel."""
    r, half = D.pulley_radius, D.pulley_thick / 2
    groove = [
        (0, -half),
        (r, -half),
        (r, -half + 1.7),
        (D.groove_radius, -0.4),
        (D.groove_radius, 0.4),
        (r, half - 1.7),
        (r, half),
        (0, half),
    ]
    wheel = Manifold.revolve(CrossSection([groove]), 72)
    return wheel - bore(D.pulley_bore, 40.0, D.bore_n)


def bracket_left() -> Manifold:
    """Return the left pulley bracket: a plate on the deck's back, with a boss that keeps the pulley under it."""
    (x, y), (x_back, y_back) = D.bracket_screws
    screws = [(0.0, 0.0), (x_back - x, y_back - y)]
    axle = (D.pulley_x - x, D.channel_y + D.groove_radius + D.cord / 2 - y)
    body = plate(bar([*screws, axle], [4.0, 4.0, 6.0]), D.bracket_thick)
    boss = bore(7.8, D.bracket_boss, 64).translate((*axle, -(D.bracket_thick + D.bracket_boss) / 2))
    body += boss
    for at in screws:
        body -= bore(D.screw_bore, 20.0, D.bore_n).translate((*at, 0.0))
    return body - bore(D.axle_bore, 20.0, D.bore_n).translate((*axle, 0.0))


def bracket_right() -> Manifold:
    """Return the right pulley bracket, the left one's mirror image."""
    return bracket_left().mirror((0, 1, 0))


def link() -> Manifold:
    """Return a link with two bores."""
    half = D.link_long / 2
    body = plate(bar([(-half, 0), (half, 0)], [D.link_wide / 2] * 2), D.link_thick, 0.6)
    for x in (-half, half):
        body -= bore(D.screw_bore, 20.0, D.bore_n).translate((x, 0, 0))
    return body


def yoke() -> Manifold:
    """Return the yoke that shares the pull between both cords: its middle bore is drawn a little tight."""
    end, lead = D.yoke_end, D.yoke_lead
    outline = bar([(-end, 0), (0, lead), (end, 0)], [6.0, 7.0, 6.0])
    body = plate(outline, D.yoke_thick)
    for x, y, d in ((-end, 0.0, D.screw_bore), (0.0, lead, D.yoke_bore), (end, 0.0, D.screw_bore)):
        body -= bore(d, 20.0, D.bore_n).translate((x, y, 0))
    return body


def anchor() -> Manifold:
    """Return a cord anchor: the cord runs through, a wood screw in the blind pilot clamps it."""
    x, y, z = D.anchor
    body = plate(rounded(x, y, 3.0), z, 0.8)
    body -= bore(D.channel, 60.0, D.channel_n, axis="x").translate((0, 0, -z / 2 + 3.5))
    depth = D.pilot_deep
    return body - bore(D.pilot_bore, depth, D.bore_n).translate((0, 0, z / 2 - depth / 2))


def guide() -> Manifold:
    """Return a cord guide: the cord comes in flat and leaves upward through a bent channel."""
    body = plate(rounded(22.0, 12.0, 3.0), 16.0, 0.8)
    bend = bent_tube(D.guide_channel / 2, 9.0, 90.0, D.channel_n, 18)
    entry = bore(D.guide_channel, 12.0, D.channel_n, axis="x").translate((-6.0, 0, 0))
    leave = bore(D.guide_channel, 12.0, D.channel_n).translate((9.0, 0, 9.0 + 6.0))
    return body - (bend + entry + leave).translate((-4.0, 0, -4.0))


def buckle() -> Manifold:
    """Return a ladder buckle with two slots."""
    x, y, z = D.buckle
    body = plate(rounded(x, y, 5.0), z, 0.8)
    for side in (-5.5, 5.5):
        body -= Manifold.extrude(slot_outline(D.buckle_slot, D.strap_slot_wide, D.slot_n), 20.0).translate(
            (0, side, -10)
        )
    return body


def knob() -> Manifold:
    """Return a thumb knob with a pocket for a nut."""
    grip = CrossSection.circle(D.knob_radius, 96)
    for k in range(8):
        a = math.radians(45 * k)
        grip -= CrossSection.circle(2.2, 32).translate(
            (D.knob_radius * 1.12 * math.cos(a), D.knob_radius * 1.12 * math.sin(a))
        )
    body = plate(grip, D.knob_high)
    pocket = bore(D.nut_flats / math.cos(math.pi / 6), 2 * D.nut_deep, 6).translate((0, 0, D.knob_high / 2))
    return body - pocket - bore(D.knob_bore, 40.0, D.bore_n)
