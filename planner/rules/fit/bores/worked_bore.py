"""What a printed bore measures once the work that the job states has been done on it."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Work
from planner.job import HandWork
from planner.rules.rule import just_reaches


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedBore:
    """The work stated for one bore, in order; without any, the bore stays as it prints.

    ``bush_wall_mm`` is the least wall of a bush or plug.
    """

    works: tuple[HandWork, ...] = ()
    bush_wall_mm: float = 0.0

    def finished_mm(self, printed_mm: float) -> float:
        """Return the diameter after all work: a drill widens what is narrower, a bush is as wide as it is bored."""
        for work in self.works:
            if work.fills or printed_mm < work.to_mm:
                printed_mm = work.to_mm
        return printed_mm

    def cut_mm(self, printed_mm: float) -> float:
        """Return the widest diameter that is cut into the part itself, or the printed one."""
        widest, now = printed_mm, printed_mm
        for work in self.works:
            if work.fills or now < work.to_mm:
                now = work.to_mm
            widest = max(widest, now)
        return widest

    def least_wall_mm(self, printed_mm: float) -> float | None:
        """Return the least wall of its bushes and plugs; None where nothing is glued in."""
        least, now = None, printed_mm
        for work in self.works:
            if work.fills:
                wall = (now - work.to_mm) / 2
                least = wall if least is None or wall < least else least
            if work.fills or now < work.to_mm:
                now = work.to_mm
        return least

    def does(self, printed_mm: float) -> bool:
        """Return whether any of it changes the bore."""
        return any(work.fills for work in self.works) or any(printed_mm < work.to_mm for work in self.works)

    @property
    def told(self) -> str:
        """The work as an order, without its depth."""
        return ", then ".join(work.told for work in self.works)

    def as_listed(self, printed_mm: float, hardware: str) -> Work:
        """Return the work as the lists read it: what is cut into the part, and the bush where one is glued in."""
        cut = self.cut_mm(printed_mm)
        drilled = cut if printed_mm < cut else None
        if not any(work.fills for work in self.works):
            return Work(kind="ream" if self.works[-1].kind == "ream" else "drill", hardware=hardware, to_mm=drilled)
        return Work(
            kind="bush",
            hardware=hardware,
            to_mm=drilled,
            outside_mm=cut,
            bored_mm=self.finished_mm(printed_mm),
        )

    def printed_turns_mm(self) -> tuple[float, ...]:
        """Return the printed diameters at which something about the work changes."""
        sizes = [work.to_mm for work in self.works]
        return (*sizes, *(work.to_mm + 2 * just_reaches(self.bush_wall_mm) for work in self.works if work.fills))
