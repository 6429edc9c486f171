"""The arm: cuff, saddle, deck, cover, lock pin."""

from __future__ import annotations

import math

import numpy as np
from manifold3d import CrossSection, Manifold

from sample_parts.dimensions import HERON as D
from sample_parts.solids import bar, bore, plate, rounded, slot_outline

SADDLE_X = 38.0
"""Where the saddle sits, from the elbow end of the cuff."""
SADDLE_SCREWS = ((-17.0, -15.0), (-17.0, 15.0), (17.0, -15.0), (17.0, 15.0))
DECK_Z = D.cuff_inner_radius + D.cuff_wall + 13.0
"""Height of the deck's underside over the forearm's axis."""

NOTCH_DEEP, NOTCH_HALF, NOTCH_Y = 4.7, 6.0, 11.0
"""The saddle's corners lie lower than the deck, round each screw, from this far off the middle."""
RAIL_DEEP = 9.0
PIN_DOWN = 7.0
"""How far the lock pin lies under the deck."""


def arc_band(inner: float, outer: float, open_deg: float, n: int) -> CrossSection:
    """Return a C of constant wall, open downward by ``open_deg``, with round lips."""
    half = math.radians((360.0 - open_deg) / 2)
    angles = np.linspace(math.pi / 2 - half, math.pi / 2 + half, n + 1)
    out = [(outer * math.cos(a), outer * math.sin(a)) for a in angles]
    back = [(inner * math.cos(a), inner * math.sin(a)) for a in angles[::-1]]
    middle, wall = (inner + outer) / 2, outer - inner
    lips = [
        CrossSection.circle(wall / 2, 24).translate((middle * math.cos(a), middle * math.sin(a)))
        for a in angles[[0, -1]]
    ]
    return CrossSection([out + back]) + lips[0] + lips[1]


def shell(inner: float, outer: float) -> Manifold:
    """Return the cuff's bare shell: a C drawn along x from the elbow, narrowing to the wrist."""
    band = arc_band(inner, outer, D.cuff_open_deg, D.cuff_n)
    tapered = Manifold.extrude(band, D.cuff_length, 0, 0.0, (D.cuff_taper, D.cuff_taper))
    return tapered.rotate((90, 0, 0)).rotate((0, 0, 90))


def cuff() -> Manifold:
    """Return the cuff: a tapered shell with four strap slots and the saddle's screw bores."""
    body = shell(D.cuff_inner_radius, D.cuff_inner_radius + D.cuff_wall)
    cut = Manifold.extrude(slot_outline(D.strap_slot, D.strap_slot_wide, D.slot_n), 30.0)
    lip_deg = (360.0 - D.cuff_open_deg) / 2 - 16.0
    for x, share in ((24.0, 0.2), (96.0, 0.8)):
        lean = math.degrees(math.atan((1 - D.cuff_taper) * D.cuff_inner_radius / D.cuff_length))
        inner = D.cuff_inner_radius * (1 - (1 - D.cuff_taper) * share)
        for side in (-1, 1):
            placed = cut.translate((0, 0, inner - 12)).rotate((0, lean, 0)).rotate((side * lip_deg, 0, 0))
            body -= placed.translate((x, 0, 0))
    for x, y in SADDLE_SCREWS:
        body -= bore(D.saddle_bore, 60.0, D.bore_n).translate((SADDLE_X + x, y, 32.0))
    return body


def saddle() -> Manifold:
    """Return the saddle: it rides on the cuff and holds the deck in a dovetail."""
    low, high = D.cuff_inner_radius - 8.0, DECK_Z
    block = plate(rounded(46.0, 42.0, 6.0), high - low, 1.0).translate((SADDLE_X, 0, (high + low) / 2))
    outside = (
        Manifold.extrude(
            CrossSection.circle(D.cuff_inner_radius + D.cuff_wall + 0.2, D.cuff_n),
            D.cuff_length,
            0,
            0.0,
            (D.cuff_taper, D.cuff_taper),
        )
        .rotate((90, 0, 0))
        .rotate((0, 0, 90))
    )
    block -= outside
    block -= dovetail(60.0, 0.3).translate((SADDLE_X, 0, DECK_Z))
    for x, y in SADDLE_SCREWS:
        block -= bore(D.saddle_bore, 80.0, D.bore_n).translate((SADDLE_X + x, y, DECK_Z - 10))
        notch = Manifold.cube((2 * NOTCH_HALF, 30.0, 20.0), True).translate((0, math.copysign(15.0 + NOTCH_Y, y), 10.0))
        block -= notch.translate((SADDLE_X + x, 0, DECK_Z - NOTCH_DEEP))  # so that the nuts stay under the deck
    pin = bore(D.pin_bore, 80.0, D.bore_n, axis="y").translate((SADDLE_X, 0, DECK_Z - PIN_DOWN))
    return block - pin


def dovetail(length: float, play: float) -> Manifold:
    """Return the rail under the deck, top at z = 0, widening downward; grown by a play to cut its groove."""
    top, bottom, deep = 12.0 + 2 * play, 16.0 + 2 * play, RAIL_DEEP + play
    outline = CrossSection([[(-bottom / 2, -deep), (bottom / 2, -deep), (top / 2, 0.01), (-top / 2, 0.01)]])
    return Manifold.extrude(outline, length, 0).translate((0, 0, -length / 2)).rotate((90, 0, 0)).rotate((0, 0, 90))


def deck() -> Manifold:
    """Return the deck: rail at the back, two cord channels, a clevis for both jaws in front."""
    length, thick = D.deck_length, D.deck_thick
    spine = plate(bar([(-length / 2 + 17, 0), (length / 2 - 40, 0)], [15.0, 12.0]), thick, 1.0)
    posts = [(length / 2 - 13, y) for y in (-D.post_apart / 2, D.post_apart / 2)]
    head = CrossSection.batch_hull(
        [CrossSection.circle(D.knuckle_radius, 64).translate(p) for p in posts]
        + [CrossSection.square((2.0, 24.0), True).translate((length / 2 - 44, 0))]
    )
    drop = (D.clevis_thick - thick) / 2  # flush on top, so that the deck prints upside down without support there
    body = spine + plate(head, D.clevis_thick, 1.0).translate((0, 0, -drop))
    body -= Manifold.cube((D.clevis_long + 20.0, 60.0, D.clevis_slot), True).translate(
        (length / 2 - D.clevis_long + (D.clevis_long + 20.0) / 2, 0, -drop)
    )
    for x in D.windows_x:  # they save weight; the head of the yoke's middle screw slides in the front one
        body -= plate(rounded(18.0, 9.0, 4.0), 30.0).translate((x, 0, 0))
    rail_x = -length / 2 + D.rail_back
    rail = dovetail(D.rail_long, 0.0).translate((rail_x, 0, -thick / 2))
    body += rail
    body -= Manifold.cube((D.pin_bore + 0.4, 40.0, 2 * (RAIL_DEEP - PIN_DOWN + D.pin_bore / 2)), True).translate(
        (rail_x, 0, -thick / 2 - RAIL_DEEP)
    )  # a notch that the lock pin passes
    for x, y in posts:
        body -= bore(D.post_bore, 40.0, D.bore_n).translate((x, y, 0))
    for y in (-D.channel_y, D.channel_y):
        body -= bore(D.channel, 2 * length, D.channel_n, axis="x").translate((0, y, 0))
    for x, y in D.bracket_screws:
        for side in (-y, y):
            body -= bore(D.screw_bore, 40.0, D.bore_n).translate((x, side, 0))
    return body - bore(D.knob_bore, 40.0, D.bore_n).translate((D.knob_x, 0, 0))


def cover() -> Manifold:
    """Return the cover: a low hood over the brackets' screws; its back wall lets the brackets through."""
    long, wide, wall = D.cover[0], D.cover[1], 1.8
    outside = plate(rounded(long, wide, 8.0), 11.0, 2.0).trim_by_plane((0.0, 0.0, 1.0), -3.5).translate((0, 0, -1.0))
    inside = plate(rounded(long - 2 * wall, wide - 2 * wall, 6.2), 9.0).translate((0, 0, -1.8))
    body = outside - inside
    for x in (-14.0, 0.0, 14.0):
        body -= Manifold.extrude(slot_outline(16.0, 3.0, D.slot_n), 20.0).rotate((0, 0, 90)).translate((x, 0, -5))
    way = Manifold.cube((20.0, 2 * wide, 2 * (D.bracket_thick + 0.4)), True)
    return body - way.translate((-long / 2 - 2.0, 0, -4.5))  # to where its round corners end


def lock_pin() -> Manifold:
    """Return the pin that keeps the deck in the saddle: a headed peg with a flat to print on."""
    peg = bore(2 * D.pin_radius, D.pin_long, 64)
    head = bore(11.0, 3.0, 64).translate((0, 0, D.pin_long / 2 + 1.5))
    return (peg + head).trim_by_plane((-1.0, 0.0, 0.0), -(D.pin_radius - 0.6))
