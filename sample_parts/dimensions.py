"""Every dimension of the Heron, in mm, at 100 %. Drawn with x along the forearm, y across, z up."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimensions:
    """The Heron's dimensions; ``_n`` are numbers of facets."""

    cuff_inner_radius: float = 31.0
    cuff_wall: float = 3.2
    cuff_length: float = 120.0
    cuff_taper: float = 0.86
    """Width at the wrist over width at the elbow."""
    cuff_open_deg: float = 118.0
    cuff_n: int = 120
    strap_slot: float = 26.0
    strap_slot_wide: float = 4.0
    slot_n: int = 16
    """Facets of each round end of a slot."""
    screw_bore: float = 3.3
    saddle_bore: float = 3.36
    yoke_bore: float = 2.95
    pulley_bore: float = 3.4
    post_bore: float = 5.3
    pilot_bore: float = 2.6
    pilot_deep: float = 7.5
    channel: float = 2.0
    guide_channel: float = 2.2
    bore_n: int = 48
    channel_n: int = 32
    deck_length: float = 150.0
    deck_thick: float = 10.0
    clevis_thick: float = 14.0
    clevis_slot: float = 6.0
    clevis_long: float = 40.0
    rail_long: float = 44.0
    rail_back: float = 40.0
    """From the deck's back end to the middle of its rail: room for the brackets' nuts behind the saddle."""
    windows_x: tuple[float, float] = (-34.0, 5.0)
    """Middles of the deck's windows; the head of the yoke's middle screw slides in the front one."""
    channel_y: float = 8.5
    knob_x: float = 27.0
    """Where the knob's screw goes through the deck: the knob clamps the drive cord."""
    post_apart: float = 18.0
    gap: float = 0.40
    knuckle_radius: float = 8.0
    """Of the deck's head round each post."""
    jaw_knuckle: float = 7.2
    """Of the jaw round its post: the other jaw's tail passes it."""
    tail_deg: float = 205.5
    """Where the jaw's tail points, from the forearm's axis, as drawn."""
    hook_radius: float = 18.5
    """From the post to the waist of the tail, where the cord's loop lies."""
    tail_reach: float = 22.0
    """From the post to the middle of the bulb that keeps the loop on."""
    horn: tuple[float, float] = (30.0, 17.0)
    """Tip of the horn that the return elastic loops over, in the jaw."""
    jaw_reach: float = 74.0
    finger_thick: float = 9.0
    link_long: float = 42.0
    link_wide: float = 10.0
    link_thick: float = 4.0
    pulley_radius: float = 8.0
    pulley_thick: float = 6.0
    groove_radius: float = 5.8
    cord: float = 1.0
    """Diameter of the pull cord, which lies in the pulley's groove."""
    pulley_x: float = -77.0
    """Where the pulleys stand, in the deck: just behind its round back."""
    bracket_thick: float = 4.0
    bracket_boss: float = 1.7
    """How far the bracket's boss keeps the pulley under it."""
    bracket_screws: tuple[tuple[float, float], tuple[float, float]] = ((-61.8, 4.2), (-68.5, 4.2))
    """Where the left bracket's screws go through the deck: behind the saddle, inside the channel."""
    axle_bore: float = 3.4
    yoke_end: float = 21.1
    """In line with the cords, as they come back off the pulleys."""
    yoke_lead: float = 4.0
    """How far the yoke's middle bore lies before the line of its ends."""
    yoke_thick: float = 5.0
    anchor: tuple[float, float, float] = (18.0, 12.0, 14.0)
    buckle: tuple[float, float, float] = (34.0, 24.0, 4.0)
    buckle_slot: float = 26.0
    cover: tuple[float, float] = (56.0, 28.0)
    cap_radius: float = 6.5
    cap_high: float = 5.0
    cap_bore: float = 5.2
    cap_deep: float = 3.0
    pin_bore: float = 6.45
    pin_radius: float = 3.0
    pin_long: float = 40.0
    nut_flats: float = 5.7
    nut_deep: float = 3.0
    knob_bore: float = 3.45
    """Told apart from the other screws' bores in the deck."""
    knob_radius: float = 9.0
    knob_high: float = 8.0


HERON = Dimensions()
