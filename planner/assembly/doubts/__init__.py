"""Doubts: what nobody stated and a person can answer in one go."""

from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.doubts.doubts_of import doubts_of

__all__ = ["Doubt", "Option", "doubts_of"]
