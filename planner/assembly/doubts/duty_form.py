"""What a part is by name and form: plate, pin, shell, cover, or a body that carries load; each with how sure."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from planner.job import Duty
from planner.survey import Survey, pin_shafts_mm, shadow_mm

Floats = NDArray[np.float64]
Form = Literal["plate", "pin", "shell", "cover", "body"]
DUTY_WORDS: dict[Duty, tuple[str, ...]] = {
    "pin": ("pin", "axle", "rod", "dowel", "shaft", "peg"),
    "cover": ("cover", "lid", "cap", "shroud", "badge", "knob", "button"),
    "shell": ("cuff", "shell", "socket", "housing", "case", "body"),
    "soft": ("pad", "grip", "sleeve", "bumper"),
    "load": (
        *("arm", "bracket", "deck", "frame", "gear", "gearwheel", "hinge", "hook", "jaw", "lever", "link", "mount"),
        *("pulley", "yoke"),
    ),
}
"""Words in a file's name that tell a duty; common practice, no source."""
BESIDE = ("left", "right", "copy", "final", "new", "pc", "mm", "top", "bottom")
"""Words that say which one, not what."""
BY_NAME = 0.85
"""How sure a name makes; form alone makes less."""
BY_FORM: Mapping[Form, Mapping[Duty, float]] = {
    "plate": {"load": 0.85, "cover": 0.1, "shell": 0.05},
    "pin": {"pin": 0.7, "load": 0.2, "cover": 0.1},
    "shell": {"shell": 0.55, "load": 0.3, "cover": 0.15},
    "cover": {"cover": 0.5, "load": 0.3, "shell": 0.2},
    "body": {"load": 0.85, "cover": 0.08, "shell": 0.07},
}
"""Share of each duty by form; read off the devices of the tests, otherwise common practice, no source."""
FLAT = 0.25
"""A plate's height over its lesser breadth."""
HOLLOW, THIN = 0.4, 0.15
"""A shell: share of its hull that is filled, and usual wall over its least extent."""
LID_MM = 2.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Role:
    """What a part is: its form, the share of every duty, and why."""

    form: Form
    shares: Mapping[Duty, float]
    why: str

    @property
    def duty(self) -> Duty:
        """The likeliest duty."""
        return max(self.shares, key=lambda duty: self.shares[duty])


def role_of(name: str, survey: Survey) -> Role:
    """Return what a part is by its name, and by its form where the name says nothing."""
    form = form_of(survey)
    by_form = BY_FORM[form]
    named = duty_named(name)
    if named is None:
        return Role(form=form, shares=by_form, why=f"by form: {form}")
    rest = {duty: share for duty, share in by_form.items() if duty != named}
    left = (1.0 - BY_NAME) / sum(rest.values())
    shares: dict[Duty, float] = {named: BY_NAME, **{duty: share * left for duty, share in rest.items()}}
    return Role(form=form, shares=shares, why="by its name")


def duty_named(name: str) -> Duty | None:
    """Return the duty that a name tells, None where it tells none.

    >>> duty_named("left-Cuff_v2"), duty_named("spine")
    ('shell', None)
    """
    words = [word for word in re.findall(r"[a-z]+", name.lower()) if len(word) > 1 and word not in BESIDE]
    last = words[-1] if words else ""  # the last word is the thing, those before it say which
    for duty, known in DUTY_WORDS.items():
        if last in known or last.removesuffix("s") in known:
            return duty
    return None


def form_of(survey: Survey) -> Form:
    """Return the form that a part's survey shows."""
    flat = min(survey.poses, key=lambda pose: pose.height_mm)
    breadth = _breadth_mm(shadow_mm(survey.hull_mm, flat.down)[0])
    hull_mm3 = _hull_mm3(survey)
    filled = survey.volume_mm3 / hull_mm3 if hull_mm3 else 1.0
    wall = usual_wall_mm(survey)
    if pin_shafts_mm(survey):
        return "pin"
    if filled < HOLLOW and wall < THIN * min(survey.size_mm) and not survey.bores:
        return "cover" if wall < LID_MM and flat.height_mm < breadth / 2 else "shell"
    if filled < HOLLOW and wall < THIN * min(survey.size_mm):
        return "shell"
    if flat.height_mm < FLAT * breadth:
        return "cover" if flat.height_mm < LID_MM and not survey.bores else "plate"
    return "body"


def usual_wall_mm(survey: Survey) -> float:
    """Return the wall that half of the surface is thinner than; 0 where no faces are opposed."""
    walls = survey.walls
    if not len(walls.area_mm2):
        return 0.0
    half = np.searchsorted(np.cumsum(walls.area_mm2), walls.area_mm2.sum() / 2)
    return float(walls.thickness_mm[min(int(half), len(walls.thickness_mm) - 1)])


def _breadth_mm(outline_mm: Floats) -> float:
    """Return the lesser side of the smallest rectangle about an outline."""
    box = shapely.minimum_rotated_rectangle(shapely.multipoints(outline_mm))
    corners = shapely.get_coordinates(box)
    sides = np.linalg.norm(np.diff(corners, axis=0), axis=1)
    return float(sides.min()) if len(sides) else 0.0


def _hull_mm3(survey: Survey) -> float:
    """Return the volume of a part's convex hull; 0 where it is flat."""
    try:
        return float(ConvexHull(survey.hull_mm).volume)
    except QhullError:
        return 0.0
