"""``move.range`` of a printed peg: what ``peg.tight`` says of it, told of the joint that turns about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.finding import Finding
from planner.mechanism.movement.movement import Movement
from planner.mechanism.play.peg_sleeves import pegs_of_joint
from planner.rules import PegTight, Wrapped, peg_rule


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePeg(Wrapped):
    """The play of a peg in its bore, judged as the rule of fit judges it: the two never disagree."""

    inner: PegTight
    joint: str

    @property
    def rule(self) -> str:
        """What turns is asked about as a range."""
        return "move.range"

    @property
    def feature(self) -> str:
        """The joint."""
        return self.joint

    def at(self, s: float) -> Finding:
        """Return the finding of the peg, as one about the joint."""
        return replace(self.inner.at(s), rule=self.rule, feature=self.joint)

    def turns(self) -> tuple[float, ...]:
        """Return where the finding of the peg turns."""
        return self.inner.turns()


def peg_rules(movement: Movement) -> Iterator[MovePeg]:
    """Yield a rule for every joint that turns about a printed peg in a printed bore."""
    for joint in movement.mechanism.joints:
        for found in pegs_of_joint(joint, movement.surveys)[:1]:
            yield MovePeg(inner=peg_rule(movement.job, found, movement.downs.get(found.part)), joint=joint.name)
