"""Why the weakest place of a part could not be told, and what would tell it."""

from __future__ import annotations

from enum import StrEnum

from planner.finding import Evidence, Finding, Verdict


class Unscreened(StrEnum):
    """What is missing, in words."""

    NO_LOAD = "no load is stated"
    UNHELD = "nothing says what holds it"
    AIR = "its load_at_mm lies on nothing"
    UNCUT = "no section of it lies between its load and what holds it"
    UNSOUND = "its mesh is not sound, so it cannot be cut"

    @property
    def remedy(self) -> str:
        """What a person can do about it."""
        return {
            Unscreened.NO_LOAD: "state load_n of [use], and load_at_mm and load_dir of [[part]]",
            Unscreened.UNHELD: "state what holds it: the [[hardware]] in its bores, or a [[joint]] with what it meets",
            Unscreened.AIR: "state load_at_mm of [[part]] where the load touches it, in mm as its mesh is drawn",
            Unscreened.UNCUT: "state load_at_mm and load_dir of [[part]]",
            Unscreened.UNSOUND: "mend its mesh",
        }[self]

    def question(self, part: str) -> str:
        """Return what to ask about a part."""
        return {
            Unscreened.NO_LOAD: f"Where, which way and how hard does the load act on {part}?",
            Unscreened.UNHELD: f"What holds {part} when it is loaded?",
            Unscreened.AIR: f"Where does the load touch {part}?",
            Unscreened.UNCUT: f"Where and which way does the load act on {part}?",
            Unscreened.UNSOUND: f"Is there a sound mesh of {part}?",
        }[self]


def unscreened(part: str, why: Unscreened, said: str = "") -> Finding:
    """Hold a part that could not be screened; ``said`` tells more of why."""
    return Finding(
        rule="strength.beam",
        part=part,
        feature="weakest place",
        verdict=Verdict.HOLD,
        why=f"where {part} is weakest is not known: {said or why}",
        remedy=why.remedy,
        source="job file",
        question=why.question(part),
        evidence=Evidence.GUESSED,
    )
