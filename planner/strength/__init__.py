"""Strength: where a part breaks first under its load, as a screening.

1. ``Strengths`` of a printed solid: in the layers' plane, across the layers, and in shear between them.
2. ``index(stress_mpa, normal, strengths)`` is the share of the strength, squared; ``share_percent`` its root.
"""

from planner.strength.criterion import Strengths, index, off_axis_strength_mpa, share_percent

__all__ = [
    "Strengths",
    "index",
    "off_axis_strength_mpa",
    "share_percent",
]
