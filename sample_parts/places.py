"""Where every copy of every part of the Heron stands, from its dimensions: ``python -m sample_parts.places``.

Writes the job's ``[[place]]`` and ``[[point]]`` tables. The frame is the cuff's: x along the forearm from the elbow, y
across, z up. The jaws stand near closed; the yoke, its links and the anchors stand as they do then.
"""

from __future__ import annotations

import math
import re

import numpy as np
from manifold3d import Manifold

from sample_parts.arm_group import DECK_Z, PIN_DOWN, SADDLE_X
from sample_parts.dimensions import HERON as D
from sample_parts.generate import FOLDER, PARTS
from sample_parts.jaw_group import hook_mm

Place = tuple[tuple[float, float, float], tuple[float, float, float, float]]
"""Where a mesh's origin stands, and how the mesh was turned about it before: axis x, y, z and degrees."""

STRAIGHT = (0.0, 0.0, 1.0, 0.0)
DECK_X = SADDLE_X + D.deck_length / 2 - D.rail_back
MIDDLE_Z = DECK_Z + D.deck_thick / 2
TOP_Z = DECK_Z + D.deck_thick
POST_X = DECK_X + D.deck_length / 2 - 13.0
SLOT_Z = MIDDLE_Z - (D.clevis_thick - D.deck_thick) / 2
RETURN_Y = D.channel_y + 2 * D.groove_radius + D.cord
"""The cords come back outside the deck, off the far side of the pulleys."""
YOKE_X = DECK_X + 4.0
"""The line of the yoke's ends."""
LINK_X = YOKE_X - D.link_long / 2
ANCHOR_X = DECK_X - 53.0
GUIDE_X, GUIDE_Y = DECK_X + 43.5, 14.5
BUCKLE_Y, BUCKLE_Z = 13.0, -36.0
PAD_AT = (68.19, 4.18)
"""The pad's middle on the finger, in the jaw: its closed end touches the tip."""
PAD_LEAN = math.degrees(math.atan2(7.5, 20.0))
MARKER = "# --- where each part stands"
END = "# --- end of places"


def places() -> dict[str, Place]:
    """Return the place of every copy."""
    half, turned = D.post_apart / 2, (1.0, 0.0, 0.0, 180.0)
    x, y = D.bracket_screws[0]
    pad_x, pad_y = POST_X + PAD_AT[0], half + PAD_AT[1]
    bracket_z, anchor_z = TOP_Z + D.bracket_thick / 2, MIDDLE_Z + D.anchor[2] / 2 - 3.5
    link_z = TOP_Z - D.link_thick / 2
    found: dict[str, Place] = {
        "cuff": ((0.0, 0.0, 0.0), STRAIGHT),
        "saddle": ((0.0, 0.0, 0.0), STRAIGHT),
        "deck": ((DECK_X, 0.0, MIDDLE_Z), STRAIGHT),
        "jaw": ((POST_X, half, SLOT_Z), STRAIGHT),
        "jaw#2": ((POST_X, -half, SLOT_Z), turned),
        "pad": ((pad_x, pad_y, SLOT_Z), (0.0, 0.0, 1.0, 180.0 - PAD_LEAN)),
        "pad#2": ((pad_x, -pad_y, SLOT_Z), (0.0, 0.0, 1.0, 180.0 + PAD_LEAN)),
        "cap": ((POST_X, half, TOP_Z), STRAIGHT),
        "cap#2": ((POST_X, -half, TOP_Z), STRAIGHT),
        "pulley": ((DECK_X + D.pulley_x, RETURN_Y - D.groove_radius - D.cord / 2, MIDDLE_Z), STRAIGHT),
        "pulley#2": ((DECK_X + D.pulley_x, -(RETURN_Y - D.groove_radius - D.cord / 2), MIDDLE_Z), STRAIGHT),
        "bracket-left": ((DECK_X + x, y, bracket_z), STRAIGHT),
        "bracket-right": ((DECK_X + x, -y, bracket_z), STRAIGHT),
        "link": ((LINK_X, D.yoke_end, link_z), STRAIGHT),
        "link#2": ((LINK_X, -D.yoke_end, link_z), STRAIGHT),
        "yoke": ((YOKE_X, 0.0, TOP_Z + D.yoke_thick / 2), (0.0, 0.0, 1.0, -90.0)),
        "anchor": ((ANCHOR_X, RETURN_Y, anchor_z), STRAIGHT),
        "anchor#2": ((ANCHOR_X, -RETURN_Y, anchor_z), STRAIGHT),
        "guide": ((GUIDE_X, GUIDE_Y, TOP_Z + 8.0), (0.0, 0.0, 1.0, 180.0)),
        "guide#2": ((GUIDE_X, -GUIDE_Y, TOP_Z + 8.0), (0.0, 0.0, 1.0, 180.0)),
        "buckle": ((24.0, BUCKLE_Y, BUCKLE_Z), STRAIGHT),
        "buckle#2": ((24.0, -BUCKLE_Y, BUCKLE_Z), STRAIGHT),
        "buckle#3": ((96.0, BUCKLE_Y, BUCKLE_Z), STRAIGHT),
        "buckle#4": ((96.0, -BUCKLE_Y, BUCKLE_Z), STRAIGHT),
        "knob": ((DECK_X + D.knob_x, 0.0, TOP_Z + D.cord + D.knob_high / 2), STRAIGHT),
        "cover": ((DECK_X - 37.0, 0.0, TOP_Z + 4.5), STRAIGHT),
        "lock-pin": ((SADDLE_X, 1.0, DECK_Z - PIN_DOWN), (1.0, 0.0, 0.0, -90.0)),
    }
    return found


def points() -> dict[tuple[str, str], tuple[float, float, float]]:
    """Return the points that the cords' ways name, by part and name, in the part's mesh."""
    return {
        ("jaw", "hook"): hook_mm(),
        ("jaw", "horn"): (27.5, 14.0, 0.0),
        ("anchor", "clamp"): (0.0, 0.0, -D.anchor[2] / 2 + 3.5),
    }


def stood(copy: str) -> Manifold:
    """Return one copy in its place."""
    at, (*axis, angle) = places()[copy]
    return PARTS[copy.split("#", maxsplit=1)[0]]().transform(np.column_stack([turn_of(tuple(axis), angle), at]))


def turn_of(axis: tuple[float, ...], angle_deg: float) -> np.ndarray:
    """Return the matrix that turns about an axis through the origin (Rodrigues' formula)."""
    x, y, z = np.asarray(axis) / np.linalg.norm(axis)
    cross, angle = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]]), math.radians(angle_deg)
    turned: np.ndarray = np.eye(3) + math.sin(angle) * cross + (1.0 - math.cos(angle)) * cross @ cross
    return turned


def text() -> str:
    """Return the job's tables of places and points."""
    lines = [f"{MARKER}: written by sample_parts/places.py from the dimensions ---------", ""]
    for copy, (at, turn) in places().items():
        lines += ["[[place]]", f'part = "{copy}"', f"at_mm = {_numbers(at)}"]
        lines += [f"turn = {_numbers(turn)}"] if turn[3] else []
        lines.append("")
    for (part, name), at in points().items():
        lines += ["[[point]]", f'part = "{part}"', f'name = "{name}"', f"at_mm = {_numbers(at)}", ""]
    return "\n".join([*lines, END, ""])


def _numbers(values: tuple[float, ...]) -> str:
    """Return numbers as TOML, to a thousandth."""
    return "[" + ", ".join(f"{round(value, 3) + 0.0:.15g}" for value in values) + "]"


def main() -> None:
    """Write the tables into the job."""
    job = FOLDER.parent / "job.toml"
    old = job.read_text(encoding="utf-8")
    job.write_text(re.sub(f"{MARKER}.*{END}\n", lambda _: text(), old, flags=re.DOTALL), encoding="utf-8")


if __name__ == "__main__":
    main()
