"""Assembly: which hardware sits in which bore, which parts meet by it, and what a driver reaches.

1. ``claims_of(job, surveys)`` gives each bore its hardware; ``mating_graph`` says which parts meet.
2. ``with_guesses(job, surveys)`` fills in what a folder of meshes says by itself; ``with_stacks`` the screw lengths.
3. ``ways_of(job, solids, claims)`` says what stands in a driver's straight way, where the job says where parts stand
   or their meshes are drawn in place.
"""

from planner.assembly.bore_axes import BoreAxis, axes_of, coaxial
from planner.assembly.bore_ends import CLAMPED, drill_of, drilled_mm, ends_of, printed_ends, stock_of
from planner.assembly.claim import SEATS, USUAL_FIT, Claim, bores_near, claims_of, same_size, stays_open
from planner.assembly.doubts import Doubt, Option, by_weight, doubts_of, given_edits
from planner.assembly.doubts.mates.between_doubts import between_id, between_question, joint_between
from planner.assembly.drawn.captive import captive_findings
from planner.assembly.drawn.drawn_in_place import ROUND_SHARE, TURNED_DEG, drawn_in_place, fills, overlap_as_drawn
from planner.assembly.drawn.drawn_overlaps import overlap_findings
from planner.assembly.driver_reach import Ways, ways_of
from planner.assembly.folder_guess import with_guesses
from planner.assembly.mating import mating_findings, mating_graph, notes_that_stand, with_stacks
from planner.assembly.nut_pockets import HEXAGON, pockets_on, takes_nut
from planner.assembly.pegs.close_faces import CloseFit, close_fits
from planner.assembly.pegs.pegs_in_bores import PegInBore, lies_in, pegs_in_bores, stated_joint
from planner.assembly.pegs.pegs_in_rings import PegInRing, peg_in_ring
from planner.assembly.pegs.printed_in_bores import grown, printed_in_bores
from planner.assembly.reach.drill_reach import BoreEnd, DrillReach
from planner.assembly.screw_grips import (
    SCREWS,
    ScrewGrip,
    blind_findings,
    cuts_thread,
    go_together,
    goes_with,
    screw_grips,
    unheld_findings,
)
from planner.assembly.screw_heads import head_mm, head_seats, sinks
from planner.assembly.slot_claim import SlotClaim, in_slot

__all__ = [
    "CLAMPED",
    "HEXAGON",
    "ROUND_SHARE",
    "SCREWS",
    "SEATS",
    "TURNED_DEG",
    "USUAL_FIT",
    "BoreAxis",
    "BoreEnd",
    "Claim",
    "CloseFit",
    "Doubt",
    "DrillReach",
    "Option",
    "PegInBore",
    "PegInRing",
    "ScrewGrip",
    "SlotClaim",
    "Ways",
    "axes_of",
    "between_id",
    "between_question",
    "blind_findings",
    "bores_near",
    "by_weight",
    "captive_findings",
    "claims_of",
    "close_fits",
    "coaxial",
    "cuts_thread",
    "doubts_of",
    "drawn_in_place",
    "drill_of",
    "drilled_mm",
    "ends_of",
    "fills",
    "given_edits",
    "go_together",
    "goes_with",
    "grown",
    "head_mm",
    "head_seats",
    "in_slot",
    "joint_between",
    "lies_in",
    "mating_findings",
    "mating_graph",
    "notes_that_stand",
    "overlap_as_drawn",
    "overlap_findings",
    "peg_in_ring",
    "pegs_in_bores",
    "pockets_on",
    "printed_ends",
    "printed_in_bores",
    "same_size",
    "screw_grips",
    "sinks",
    "stated_joint",
    "stays_open",
    "stock_of",
    "takes_nut",
    "unheld_findings",
    "ways_of",
    "with_guesses",
    "with_stacks",
]
