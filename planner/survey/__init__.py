"""Survey: a solid is measured once, at drawn size; every scale follows by arithmetic.

1. ``survey(solid)`` gives a :class:`Survey`: size, volume, walls, bores, slots, poses.
2. ``extents(survey.hull_mm, down)`` gives the box in any pose; ``best_turn`` the turn that fits a bed.
"""

from planner.survey.survey import Bore, Pose, Slot, Survey, WallPoint, Walls

__all__ = [
    "Bore",
    "Pose",
    "Slot",
    "Survey",
    "WallPoint",
    "Walls",
]
