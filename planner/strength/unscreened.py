"""Why the weakest place of a part could not be told, and what would tell it."""

from __future__ import annotations

from enum import StrEnum

from planner.finding import Evidence, Finding, Verdict


class Unscreened(StrEnum):
    """What is missing, in words."""

    NO_LOAD = "no load is stated"
    UNHELD = "nothing says what holds it"
    UNCUT = "no section of it lies between its load and what holds it"
    UNSOUND = "its mesh is not sound, so it cannot be cut"

    @property
    def remedy(self) -> str:
        """What a person can do about it."""
        return {
            Unscreened.NO_LOAD: "state load_n of [use], and load_at_mm and load_dir of [[part]]",
            Unscreened.UNHELD: "state what holds it: the [[hardware]] in its bores, or a [[joint]] with what it meets",
            Unscreened.UNCUT: "state load_at_mm and load_dir of [[part]]",
            Unscreened.UNSOUND: "mend its mesh",
        }[self]

    def question(self, part: str) -> str:
        """Return what to ask about a part."""
        return {
            Unscreened.NO_LOAD: f"Where, which way and how hard does the load act on {part}?",
            Unscreened.UNHELD: f"What holds {part} when it is loaded?",
            Unscreened.UNCUT: f"Where and which way does the load act on {part}?",
            Unscreened.UNSOUND: f"Is there a sound mesh of {part}?",
        }[self]


def unscreened(part: str, why: Unscreened) -> Finding:
    """Hold a part that could not be screened."""
    return Finding(
        rule="strength.beam",
        part=part,
        feature="weakest place",
        verdict=Verdict.HOLD,
        why=f"where {part} is weakest is not known: {why}",
        remedy=why.remedy,
        source="job file",
        question=why.question(part),
        evidence=Evidence.GUESSED,
    )
