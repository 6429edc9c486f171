"""``move.range`` of a printed peg: whether it turns in its bore as printed, which grows with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import part_of
from planner.mechanism.judging.move_rule import MoveRule
from planner.mechanism.movement.movement import Movement
from planner.rules import WorkedBore, undersize_of, work_on


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePeg(MoveRule):
    """The bore as printed less the peg in it, against the play that turning needs; ``off_mm`` is least, usual, most."""

    bore_mm: float
    peg_mm: float
    work: WorkedBore
    off_mm: tuple[float, float, float]
    """How much narrower than drawn the printer makes the bore."""
    needs_mm: float
    rule: str = "move.range"
    unit: str = "mm"
    source: str = "geometry: bore as printed less the peg as drawn"

    def at(self, s: float) -> Finding:
        """Compare the play with what turning needs: a no-go where it is too little on any printer of this kind."""
        most, usual = (self.work.finished_mm(s * self.bore_mm - off) - s * self.peg_mm for off in self.off_mm[:2])
        told = f"{self.feature}: a peg of {s * self.peg_mm:.2f} mm in a bore of {s * self.bore_mm:.2f} mm"
        if usual >= self.needs_mm:
            return self.found(Verdict.GO, usual, self.needs_mm, f"{told} has {usual:.2f} mm of play as printed")
        why = f"{told} has {usual:.2f} mm of play as printed; turning needs {self.needs_mm:g} mm"
        remedy = f"ream the bore to {s * self.peg_mm + self.needs_mm:.1f} mm, or draw the peg thinner"
        if most >= self.needs_mm:
            return self.found(Verdict.HOLD, usual, self.needs_mm, why, remedy, "How much narrower do bores print here?")
        return self.found(Verdict.NO_GO, usual, self.needs_mm, why, remedy)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the play is enough as usual, and at most."""
        slack_mm = self.bore_mm - self.peg_mm
        found = [(self.needs_mm + off) / slack_mm for off in self.off_mm[:2]] if slack_mm > 0.0 else []
        found += [(work.to_mm - self.needs_mm) / self.peg_mm for work in self.work.works]
        found += [(work.to_mm + off) / self.bore_mm for work in self.work.works for off in self.off_mm[:2]]
        return tuple(sorted(found))


def peg_rules(movement: Movement) -> Iterator[MovePeg]:
    """Yield a rule for every joint that turns about a printed peg in a printed bore."""
    for joint in movement.mechanism.joints:
        if joint.peg_mm <= 0.0:
            continue
        copy, name = joint.bores[0]
        part = part_of(copy)
        bore = next(bore for bore in movement.surveys[part].bores if bore.id == name)
        down = movement.downs.get(part)
        off, _ = undersize_of(movement.job, bore.axis if down else None, down or (0.0, 0.0, -1.0))
        yield MovePeg(
            part=part,
            feature=joint.name,
            bore_mm=bore.diameter_mm,
            peg_mm=joint.peg_mm,
            work=work_on(movement.job, movement.job.part(part), bore),
            off_mm=(off.low, off.value, off.high),
            needs_mm=movement.job.limits.running_turning_mm.value,
        )
