"""Three segments in a row with cords at chosen distances from each joint: drawn straight, every lever is a drawn one."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

from planner.job import read_job
from planner.mechanism import Mechanism, MovingJoint
from planner.mechanism.cord_effects.cord_moves import cord_moves
from planner.mechanism.cord_effects.cord_on_joint import strung_cords
from planner.mechanism.movement.move_records import CordMove
from tests.mechanism.cord.path.known_parts import survey_of
from tests.mechanism.invented import as_drawn
from tests.shapes import Manifold, cuboid, solid_of, written

NAMES = ("base", "one", "two", "three")
LONG_MM = 30.0


@dataclass(frozen=True, kw_only=True)
class Line:
    """A cord: the joints that it crosses (0 to 2) with its lever there, what it drives, and where that grips."""

    levers_mm: Mapping[int, float]
    drives: str = ""
    grip_x_mm: float | None = None
    more: str = ""

    def path(self) -> list[str]:
        """Return eyes 5 mm before and behind every joint that it crosses.

        A cord that is drawn begins on the base, and goes through the axis of every joint before.
        """
        before = range(min(self.levers_mm)) if self.drives else range(0)
        through = [f"{NAMES[n]}:[{LONG_MM * n}, 0, 0]" for n in before]
        return through + [
            f"{NAMES[n + beyond]}:[{LONG_MM * n + (10 * beyond - 5)}, {-lever}, 0]"
            for n, lever in self.levers_mm.items()
            for beyond in (0, 1)
        ]


def straight_finger(bent_deg: float = -10.0) -> Mechanism:
    """Return segments of 30 mm that turn about x = 0, 30 and 60, each to be bent by up to so much."""
    joints = [
        MovingJoint(
            name=f"{a} to {b}",
            parts=(a, b),
            kind="turns",
            axis=(0.0, 0.0, 1.0),
            at_mm=(LONG_MM * k, 0.0, 0.0),
            needs_deg=(bent_deg, 0.0),
        )
        for k, (a, b) in enumerate(pairwise(NAMES))
    ]
    return as_drawn(NAMES, joints, tuple(joint.name for joint in joints))


def finger_moves(folder: Path, lines: Sequence[Line], use: str = "grip_n = 10.0\n") -> tuple[CordMove, ...]:
    """Return what cords without friction do to a finger of no weight that grips with 10 N."""
    part = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "load"\n'
    for name in NAMES:
        written(cuboid(1, 1, 1), folder / f"{name}.stl")
    text = '[job]\nname = "finger"\nprinter = "bench-220"\nmaterial = "petg"\nsettings = "standard-0.4"\n'
    text += "".join(part.format(name) for name in NAMES)
    for n, line in enumerate(lines):
        path = line.path()
        text += f'[[cord]]\nname = "cord {n}"\npart = "{path[0].split(":")[0]}"\ndiameter_mm = 1.0\nchannel_mm = 2.0\n'
        text += f"path = {json.dumps(path)}\n{line.more}"
        text += f'drives = "{line.drives}"\n' if line.drives else ""
        text += "" if line.grip_x_mm is None else f"grip_at_mm = [{line.grip_x_mm}, 0.0, 0.0]\n"
    (folder / "job.toml").write_text(text + f"[use]\n{use}", encoding="utf-8")
    job = read_job(folder / "job.toml")  # which takes no cord for frictionless
    job = replace(job, cords=tuple(replace(cord, friction=0.0 if cord.drives else None) for cord in job.cords))
    foil = solid_of(Manifold.cube((120.0, 120.0, 0.0001)).translate((-10.0, -60.0, 0.0)))  # of no weight
    solids = dict.fromkeys(NAMES, foil)
    strung = strung_cords(job, solids, {name: survey_of(name, ()) for name in NAMES}, [], straight_finger(), {})
    return cord_moves(job, solids, strung, 1.0).cords
