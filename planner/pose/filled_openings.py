"""Openings in a pose: which bores lie, and which slots, bores and channels fill with support."""

from __future__ import annotations

from planner.finding import Vec3
from planner.survey import Survey

UPRIGHT_COS = 0.7071
"""A bore within 45 degrees of vertical prints as an upright one."""
ROOF_MM = 13.0
"""A horizontal bore wider than this is filled with support; a narrower one's crown holds (computed by ``layers``)."""
SPAN_MM = 6.0
"""A flat roof longer than this is supported; a shorter one is bridged (see ``layers``)."""


def uprightness(axis: Vec3, down: Vec3) -> float:
    """Return how upright an axis is in a pose, 0 to 1."""
    return abs(sum(a * d for a, d in zip(axis, down, strict=True)))


def lying_bores_mm(survey: Survey, down: Vec3) -> list[float]:
    """Return the drawn diameters of the bores that lie in a pose; the steps of one bore count as one."""
    return [
        bore.drawn_diameter_mm
        for bore in survey.bores
        if bore.drawn_diameter_mm > 0 and bore.step_of is None and uprightness(bore.axis, down) < UPRIGHT_COS
    ]


def filled_n(survey: Survey, down: Vec3) -> tuple[int, int]:
    """Return how many slots and wide bores fill with support where they lie flat, and how many wide channels."""
    slots = sum(
        slot.length_mm > SPAN_MM
        and uprightness(slot.deep_axis, down) < UPRIGHT_COS
        and uprightness(slot.length_axis, down) < UPRIGHT_COS
        for slot in survey.slots
    )
    bores = sum(diameter > ROOF_MM for diameter in lying_bores_mm(survey, down))
    return bores + slots, sum(channel.diameter_mm > ROOF_MM for channel in survey.channels)
