"""What became of a job under every change that was tried: no change is judged twice."""

from __future__ import annotations

from collections.abc import Sequence

from planner.job import Edit, Job, with_edits
from planner.remedy.standing import Again, Key, Stand
from planner.rules import is_unanswered


class Trials:
    """A job and what became of it under every change that was tried: no change is judged twice."""

    def __init__(self, stand: Stand, again: Again) -> None:
        self.stand, self.again = stand, again
        self._jobs: dict[str, Job] = {}
        self._known: dict[tuple[str, bool, bool, bool], Stand] = {}

    def after(self, does: Sequence[Edit], *, posed: bool, strong: bool = True, asked: bool = True) -> Stand:
        """Return how the job stands with some edits made; where not ``strong``, with the strength of before.

        Where not ``asked``, with its guesses taken for facts.
        """
        does_key, strong = repr(does), posed and strong
        key = (does_key, posed, strong, asked)
        if key not in self._known:
            if does_key not in self._jobs:
                self._jobs[does_key] = with_edits(self.stand.job, does)
            self._known[key] = self.again(self._jobs[does_key], posed=posed, strong=strong, asked=asked)
        return self._known[key]

    def still_fails(self, keys: Sequence[Key], does: Sequence[Edit]) -> str:
        """Return why some edits leave one of some findings failing whatever is answered; empty where that is not plain.

        What hangs on answers as the job stands is told with them, so it is not judged here.
        """
        open_now = self.stand.once("hanging", self._hanging)
        sure = [key for key in keys if key not in open_now]
        if not sure:
            return ""
        after = self.after(does, posed=False, strong=False, asked=False)
        fails = [now for key in sure if (now := after.worst_of(key)) and not now.verdict.passes]
        return fails[0].why if fails else ""

    def _hanging(self) -> frozenset[Key]:
        """Return what is asked under several answers."""
        return frozenset((rule.rule, rule.part, rule.feature) for rule in self.stand.rules if is_unanswered(rule))
