"""How far work is and how long it still takes: counted steps, and the time that steps took here, never a guess."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

LOOK_STEPS = ("reading", "measuring", "joining")
PLAN_STEPS = (*LOOK_STEPS, "laying", "packing", "finding", "judging", "writing")
"""What is done, by the first word of what a room reports."""
COUNTED = ("reading", "measuring", "laying")
"""Steps that report once for every part."""


class StepClock:
    """Hears what is done, and tells what is left.

    A step that goes part by part is left as long as the parts so far took on the average. A step that has not begun
    takes as long as it took the last time, where it was done before (``took_s``, kept from run to run); where one was
    not, only what is left of the step at hand is told.
    """

    def __init__(
        self,
        steps: Sequence[str],
        parts_n: int,
        took_s: dict[str, float] | None = None,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.steps, self.parts_n, self.clock = steps, parts_n, clock
        self.took_s = {} if took_s is None else took_s
        self.what = "starting"
        self._at, self._done, self._began_s = 0, 0, clock()

    def report(self, what: str, _: float = 0.0) -> None:
        """Hear what is done next."""
        word = what.split(" ", 1)[0]
        if word not in self.steps:
            self.what = what
            return
        place = self.steps.index(word)
        if place > self._at:
            self.end_step()
            self._at, self._done, self._began_s = place, 0, self.clock()
        elif place == self._at and self.what.startswith(word):
            self._done += 1
        self.what = what

    def end_step(self) -> None:
        """Keep how long the step at hand took."""
        self.took_s[self.steps[self._at]] = self.clock() - self._began_s

    def told(self) -> dict[str, object]:
        """Return the step at hand, its count, how long it and all of the work still take, and the share of steps done.

        ``left_s`` is None where nothing was measured yet; ``left_of`` says what it is left of: ``step`` or ``all``.
        """
        step, spent_s = self.steps[self._at], self.clock() - self._began_s
        counted = step in COUNTED and self.parts_n > 0
        done = min(self._done, self.parts_n - 1) if counted else 0
        left_s = self._left_s(step, spent_s, done, counted=counted)
        later = [self.took_s.get(one) for one in self.steps[self._at + 1 :]]
        known = [one for one in later if one is not None]
        whole = left_s is not None and len(known) == len(later)
        share = (self._at + (done / self.parts_n if counted else 0.0)) / len(self.steps)
        return {
            "what": self.what,
            "share": share,
            "step": self._at + 1,
            "steps": len(self.steps),
            "done": done if counted else None,
            "of": self.parts_n if counted else None,
            "spent_s": spent_s,
            "left_s": left_s + sum(known) if whole and left_s is not None else left_s,
            "left_of": "all" if whole else "step",
        }

    def _left_s(self, step: str, spent_s: float, done: int, *, counted: bool) -> float | None:
        """Return how long the step at hand still takes; None where neither a count nor an earlier run tells."""
        if counted and done:
            return max(spent_s / done * self.parts_n - spent_s, 0.0)
        before = self.took_s.get(step)
        return None if before is None or before <= spent_s else before - spent_s
