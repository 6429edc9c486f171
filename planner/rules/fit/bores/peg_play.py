"""The play of a printed peg in a printed bore at a scale: the one measure that every rule of it asks."""

from __future__ import annotations

from dataclasses import dataclass

from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.rule import positive
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class PegPlay:
    """The bore as it prints, after its work, less the peg as drawn, or as the job says that it is sanded.

    ``bore_factor`` and ``peg_factor`` are the scales of parts that have one of their own, None where the job's holds;
    ``undersize_mm`` is what the printer takes off the bore.
    """

    bore_mm: float
    peg_mm: float
    work: WorkedBore
    undersize_mm: Sourced
    bore_factor: float | None = None
    peg_factor: float | None = None
    sanded_mm: float | None = None
    """How thick the peg is at most after the work that the job states; None where it states none."""

    def of_bore(self, s: float) -> float:
        """Return the scale of the bore's part at a job's scale."""
        return s if self.bore_factor is None else self.bore_factor

    def peg_at(self, s: float) -> float:
        """Return the peg's diameter in mm at a job's scale, after its work."""
        printed = self.peg_mm * (s if self.peg_factor is None else self.peg_factor)
        return printed if self.sanded_mm is None or printed < self.sanded_mm else self.sanded_mm

    def printed_mm(self, s: float) -> float:
        """Return the bore as it usually prints, before any work."""
        return self.bore_mm * self.of_bore(s) - self.undersize_mm.value

    def at(self, s: float, undersize_mm: float | None = None) -> float:
        """Return the play on diameter in mm, for the usual undersize or a given one; below 0 it does not go in."""
        off_mm = self.undersize_mm.value if undersize_mm is None else undersize_mm
        return self.work.finished_mm(self.bore_mm * self.of_bore(s) - off_mm) - self.peg_at(s)

    def turns(self, *plays_mm: float) -> tuple[float, ...]:
        """Return the scales at which the play comes to any of these, whatever the printer takes off in its range."""
        bore_rate, bore_own_mm = _parts(self.bore_mm, self.bore_factor)
        peg_rate, peg_own_mm = _parts(self.peg_mm, self.peg_factor)
        rate, own_mm = bore_rate - peg_rate, bore_own_mm - peg_own_mm
        found = []
        for off_mm in (self.undersize_mm.value, self.undersize_mm.low, self.undersize_mm.high):
            found += [(play + off_mm - own_mm) / rate for play in plays_mm if rate]
            found += [(work.to_mm + off_mm) / bore_rate for work in self.work.works if bore_rate]
        for work in self.work.works:
            found += [(work.to_mm - play - peg_own_mm) / peg_rate for play in plays_mm if peg_rate]
        if self.sanded_mm is not None:
            found += [(self.sanded_mm - peg_own_mm) / peg_rate] if peg_rate else []
            for off_mm in (self.undersize_mm.value, self.undersize_mm.low, self.undersize_mm.high):
                bare = [play + off_mm + self.sanded_mm - bore_own_mm for play in plays_mm]
                found += [mm / bore_rate for mm in bare if bore_rate]
        return positive(*found)


def _parts(drawn_mm: float, factor: float | None) -> tuple[float, float]:
    """Return how fast a length grows with the job's scale, and how long it is where it does not."""
    return (drawn_mm, 0.0) if factor is None else (0.0, drawn_mm * factor)
