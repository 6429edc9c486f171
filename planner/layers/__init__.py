"""Layers: a solid in its pose becomes sections, lines, seconds and grams.

1. ``estimate(solid, down, settings, material, printer)`` gives a :class:`PartEstimate` for one copy.
2. ``plate_duration_s(estimates, ...)`` adds the copies on one plate, layer by layer.
"""

from planner.layers.estimate import LINE_KINDS, ZERO, Amount, PartEstimate

__all__ = [
    "LINE_KINDS",
    "ZERO",
    "Amount",
    "PartEstimate",
]
