"""Doubts: what nobody stated and a person can answer in one go, with the answers and how likely each is by form."""

from planner.assembly.doubts.bore_doubts import answers_by_size
from planner.assembly.doubts.checked_answers import given_edits
from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.doubts.doubts_of import by_weight, doubts_of
from planner.assembly.doubts.duty_form import Role, role_of
from planner.assembly.doubts.size_doubts import unit_doubt

__all__ = [
    "Doubt",
    "Option",
    "Role",
    "answers_by_size",
    "by_weight",
    "doubts_of",
    "given_edits",
    "role_of",
    "unit_doubt",
]
