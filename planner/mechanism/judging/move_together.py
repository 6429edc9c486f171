"""``move.range`` of joints that go at once: each reaches what it needs alone, and yet they meet on the way together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict
from planner.job import part_of
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_range import SOURCE
from planner.mechanism.judging.move_rule import MoveRule
from planner.mechanism.judging.range_ends import end_over
from planner.mechanism.movement.movement import SMALL, Movement
from planner.mechanism.movement.padding_bodies import padding_bodies
from planner.mechanism.range.all_together import WHOLE, all_together
from planner.mechanism.range.cord_bodies import cord_bodies
from planner.mechanism.range.device_bodies import device_bodies
from planner.mechanism.range.joint_range import Together
from planner.phrases import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveTogether(MoveRule):
    """How far joints get, in percent of what each needs, when all go there at once; ``met`` is what meets."""

    went: Curve
    met: Together
    rule: str = "move.range"
    unit: str = ""
    source: str = SOURCE

    def at(self, s: float) -> Finding:
        """Hold joints that meet before they reach what they need."""
        went = self.went.at(s)
        if went >= WHOLE:
            return self.found(Verdict.GO, None, None, f"{self.feature}: going together, all reach what they need")
        told = listed(f"{name} at {needs * went / WHOLE:.1f}" for name, needs in self.met.needs)
        one, other = self.met.parts
        found = self.found(
            Verdict.HOLD,
            None,
            None,
            f"going together, {other} meets {one} with {told}, before each reaches what it needs",
            "take material off where they meet, ask for less, or let one go after the other",
            f"Must {self.feature} go at once?",
        )
        return replace(found, at_mm=self.met.at_mm)

    def turns(self) -> tuple[float, ...]:
        """Return the scales from which on they no longer meet, or meet."""
        return self.went.crossings(WHOLE)


def together_rules(movement: Movement) -> Iterator[MoveTogether]:
    """Yield a rule for each way on which joints meet at any size: what keeps its size is most in the way when small."""
    for met in movement.together[0]:

        def went(s: float, needs: tuple[tuple[str, float], ...] = met.needs) -> float | None:
            same = [one for one in together_at(movement, s) if one.needs == needs]
            return WHOLE * same[0].went if same else None

        curve = end_over(went, 1, lambda _: WHOLE)
        if curve is not None:
            names = listed(name for name, _ in met.needs)
            yield MoveTogether(part=part_of(met.parts[1]), feature=names, went=curve, met=met)


def together_at(movement: Movement, factor: float) -> tuple[Together, ...]:
    """Return joints that reach what they need one by one and meet when they go together at a scale, as drawn.

    What keeps its size takes less room the larger the device is: what meets in none of the smallest meets in none.
    """
    small, grown = movement.together
    if factor == SMALL or small == grown:
        return small
    bodies, _ = device_bodies(movement.job, movement.solids, movement.mechanism, factor)
    padding = padding_bodies(movement.job, movement.solids, movement.mechanism, factor)[0]
    soft = (*cord_bodies(movement.ways, movement.mechanism, factor), *padding)
    return all_together(movement.mechanism, (*bodies, *soft), 0.0, grown)
