"""What is missing for a release, and what somebody answers for, in the language of the hand-over sheet.

What a rule found is told in English alone, below: a translator cannot know every finding. The line above says, in the
reader's own language, what kind of thing it is.
"""

from __future__ import annotations

from planner.output.record.release import Answered, Missing
from planner.output.tongue import ENGLISH_BELOW, Tongue


def missing_words(one: Missing, tongue: Tongue) -> str:
    """Return one missing item: its kind in a language, and all that is known in English below."""
    english = f"{one.what}: {one.todo}" if one.todo else one.what
    return english if tongue.code == "en" else f"{_kind(one.item, tongue)}{ENGLISH_BELOW}{english}"


def answered_words(one: Answered, tongue: Tongue) -> str:
    """Return one exception with who answers for it and why; the reason stands as it was written."""
    role, reason = one.lift.role, one.lift.reason
    if tongue.code == "en":
        return f"{one.missing.what}. Approved by the {role}: {reason}"
    kind = _kind(one.missing.item, tongue)
    told = tongue.say("{what}. Approved by: {role}. Reason: {reason}", what=kind, role=role, reason=reason)
    return f"{told}{ENGLISH_BELOW}{one.missing.what}"


def _kind(item: str, tongue: Tongue) -> str:
    """Return in words what kind of item is missing, and which one of several."""
    kind, _, name = item.partition(": ")
    say = tongue.say
    told = {
        "plan": say("the plan does not allow it"),
        "same device": say("the record is of another device"),
        "test day": say("the day of the test is missing or wrong"),
        "trial": say("not tested, or not passed: {name}", name=name),
        "lot": say("no lot is written down: {name}", name=name),
        "measures": say("a measure of the wearer is missing or does not fit"),
        "measure": say("a measure is missing, too old or of another size: {name}", name=name),
    }
    roles = {
        "printed": say("nobody is named who printed it"),
        "assembled": say("nobody is named who assembled it"),
        "tested": say("nobody is named who tested it"),
        "handed_over": say("nobody is named who handed it over"),
    }
    return roles[name] if kind == "role" else told[kind]
