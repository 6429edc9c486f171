"""Strength: where a part breaks first under its load, as a screening.

1. ``Strengths`` of a printed solid: in the layers' plane, across the layers, and in shear between them.
2. ``index(stress_mpa, normal, strengths)`` is the share of the strength, squared; ``share_percent`` its root.
3. ``screened(job, solids, surveys, claims, movement, downs)`` puts its loads on every loaded part, cuts it across their
   ways, and finds the weakest cut; ``strength_rules(job, parts)`` judges it at any size;
   ``pressed_bores(...)`` tells what their bores take, for the rules of fit that judge these.
4. ``with_elements(job, parts, ...)`` puts what finite elements say beside it: solved where asked, else what is kept.
5. ``loaded_field(one, solid, survey, factor)`` tells the share all over a part, and how it bends, for pictures.
"""

from planner.strength.beam.beam_pass import BEAM_VERSION, Weakest
from planner.strength.by_elements import with_elements
from planner.strength.criterion import Strengths, index, off_axis_strength_mpa, share_percent
from planner.strength.every_load import LOADED
from planner.strength.field.bend import Bend
from planner.strength.field.loaded_field import FIELD_VERSION, LoadedField, loaded_field
from planner.strength.field.weakest_section import weakest_section
from planner.strength.held.odd_loads import ABSURD_PERCENT
from planner.strength.judging.beam_share import BeamShare, own_factor
from planner.strength.judging.judged_otherwise import judged_otherwise
from planner.strength.judging.otherwise_printed import lying_otherwise, stress_of
from planner.strength.judging.strength_rules import strength_rules
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.strength.pressed_bores import pressed_bores
from planner.strength.screened import Screened, load_of, screened, shares_about
from planner.strength.told_by_elements import ByElements
from planner.strength.unscreened import Unscreened, unscreened

__all__ = [
    "ABSURD_PERCENT",
    "BEAM_VERSION",
    "FIELD_VERSION",
    "LOADED",
    "BeamShare",
    "Bend",
    "ByElements",
    "LoadCase",
    "LoadedField",
    "PartLoad",
    "Screened",
    "Strengths",
    "Support",
    "Unscreened",
    "Weakest",
    "index",
    "judged_otherwise",
    "load_of",
    "loaded_field",
    "lying_otherwise",
    "off_axis_strength_mpa",
    "own_factor",
    "pressed_bores",
    "screened",
    "share_percent",
    "shares_about",
    "strength_rules",
    "stress_of",
    "unscreened",
    "weakest_section",
    "with_elements",
]
