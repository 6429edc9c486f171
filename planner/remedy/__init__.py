"""Remedies: what settles a finding, as edits of the job that were made and judged again.

1. A ``Stand`` is a job with its rules asked at its size; ``groups_of`` gives what one remedy should settle together.
2. ``remedies_of(stand, again)`` tries the ways of ``ways/`` in order of effort, as ``cures`` in ``profiles/rules``
   names them, and keeps the first that settles its findings and spoils nothing.
"""

from planner.remedy.remedy import NONE_FOUND, Costs, Refused, Remedies, Remedy, told
from planner.remedy.rule_answers import Again, Stand, spoiled
from planner.remedy.search import remedies_of

__all__ = [
    "NONE_FOUND",
    "Again",
    "Costs",
    "Refused",
    "Remedies",
    "Remedy",
    "Stand",
    "remedies_of",
    "spoiled",
    "told",
]
