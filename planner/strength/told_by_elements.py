"""What finite elements say of a part at a scale, and how far that settles it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.finding import Vec3

NO_ANSWER_RATIO = 4.0
"""Without an answer a notch might raise stress so many times: a small bore in a pulled plate 3 times (Kirsch 1898), and
some more for sharper corners, no source."""
HIDES_LEAST = 1.05
"""What a mesh may hide is told from so many times the share: less counts as standing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ByElements:
    """What finite elements say of a part at a scale, under the load case that they find worst of those that may be.

    Parameters
    ----------
    factor
        The scale that it was solved for.
    beam_percent
        What the beam pass says at that scale.
    share_percent, stress_mpa
        Averaged over one line width, with the surroundings of loads left out.
    also_mm
        Other places that take as much, within what counts as standing.
    stands
        Whether the share changed little with the last of ``meshes_n``, the finest: by ``converged_percent``.
    hides_ratio
        How many times its share the last mesh may hide where edges are too long.
    untold_n
        How many load cases press all of the part, so that elements tell nothing of them.
    seconds
        Of processor time.
    unknown
        Why there is no answer; empty where there is one.
    case_said
        Which load case was worst, and how many were solved; empty where there is one alone.
    """

    factor: float
    beam_percent: float
    share_percent: float = 0.0
    at_mm: Vec3 = (0.0, 0.0, 0.0)
    stress_mpa: float = 0.0
    direction: Literal["along", "across"] = "along"
    unknowns_n: int = 0
    seconds: float = 0.0
    converged_percent: float = 0.0
    stands: bool = False
    unknown: str = ""
    case_said: str = ""
    also_mm: tuple[Vec3, ...] = ()
    meshes_n: int = 2
    hides_ratio: float = 1.0
    untold_n: int = 0

    @property
    def ratio(self) -> float:
        """How many times the share of the beam pass counts, at least once.

        Elements see notches, which cuts do not; cuts go through the surroundings of loads, which elements leave out.
        """
        return max(self.share_percent / self.beam_percent, 1.0) if self.beam_percent > 0.0 else 1.0

    @property
    def doubt(self) -> str:
        """Why the answer does not settle anything; empty where it does."""
        if self.unknown:
            return f"finite elements gave no answer: {self.unknown}"
        if self.stands:
            return ""
        if self.untold_n:
            return f"finite elements tell nothing of {self.untold_n} of its loads, which press all of it"
        if self.meshes_n == 1:
            return f"finite elements do not settle: one mesh of {self.unknowns_n} unknowns took all that may be solved"
        change = (
            f"finite elements do not settle: the last, finer mesh changed the share by {self.converged_percent:.0f} %"
        )
        if self.hides_ratio <= HIDES_LEAST:
            return change
        return f"{change}, and edges are still so long that a corner may hide {self.hides_ratio:.1f} times the share"

    @property
    def doubt_ratio(self) -> float:
        """How many times the share it might be, else once: by twice the last change, or by what its mesh may hide."""
        if self.unknown:
            return NO_ANSWER_RATIO
        if self.stands:
            return 1.0
        changed = NO_ANSWER_RATIO if self.untold_n or self.meshes_n == 1 else 1.0 + 2.0 * self.converged_percent / 100.0
        return max(changed, self.hides_ratio)
