"""Survey: a solid is measured once, at drawn size; every scale follows by arithmetic.

1. ``survey(solid)`` gives a :class:`Survey`: size, volume, walls, bores, slots, channels, poses.
2. ``shadow_mm(hull, down)`` gives outline and height in any pose, ``largest_factor`` what a bed allows.
3. ``inside_at(solid, station)`` measures a shell inside, ``gap_between_mm`` two meshes as drawn.
"""

from planner.survey.bores.around_axis import across
from planner.survey.extents import bed_frame, circle_mm, hull_points, largest_factor, shadow_mm
from planner.survey.gap_between import gap_between_mm
from planner.survey.inner_round import CLOSED_LEAST_PERCENT
from planner.survey.layer_view import LayerView, layer_view, views_of
from planner.survey.measure import SURVEY_VERSION, survey, survey_ahead
from planner.survey.openings.inner_gap import InnerGap
from planner.survey.openings.slits import Slit, slit_of
from planner.survey.pegs.peg import Peg
from planner.survey.pin_form import pin_shafts_mm
from planner.survey.rays import face_normals, first_hits
from planner.survey.station import Inside, inside_at
from planner.survey.survey import Below, Bore, Channel, Pose, Slot, Survey, ThinPlace, Walls
from planner.survey.walls.run_out import RunOut
from planner.survey.walls.triangle_tree import LEAF_N, tree_boxes

__all__ = [
    "CLOSED_LEAST_PERCENT",
    "LEAF_N",
    "SURVEY_VERSION",
    "Below",
    "Bore",
    "Channel",
    "InnerGap",
    "Inside",
    "LayerView",
    "Peg",
    "Pose",
    "RunOut",
    "Slit",
    "Slot",
    "Survey",
    "ThinPlace",
    "Walls",
    "across",
    "bed_frame",
    "circle_mm",
    "face_normals",
    "first_hits",
    "gap_between_mm",
    "hull_points",
    "inside_at",
    "largest_factor",
    "layer_view",
    "pin_shafts_mm",
    "shadow_mm",
    "slit_of",
    "survey",
    "survey_ahead",
    "tree_boxes",
    "views_of",
]
