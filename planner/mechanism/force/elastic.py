"""What a return elastic or a spring pulls at a length: Hooke's law between what a spring balance read."""

from __future__ import annotations

from dataclasses import dataclass

from planner.job import Cord


@dataclass(frozen=True, slots=True, kw_only=True)
class Elastic:
    """An elastic or a spring as measured: its force at full stretch, and how that falls for each mm less."""

    full_n: float | None
    rate_n_per_mm: float | None

    @property
    def known(self) -> bool:
        """Whether its force is known at every length."""
        return self.rate_n_per_mm is not None

    def force_n(self, length_mm: float, shortest_mm: float, longest_mm: float) -> tuple[float, float]:
        """Return the least and the greatest force that it may have at a length of its way.

        Hooke: F = F_full - c (L_full - L), and never a push (textbook, from memory). Without the rate it lies between
        nothing and its force at full stretch; without that force it is taken as just taut where its way is shortest.
        """
        rate, full = self.rate_n_per_mm, self.full_n
        if rate is None:
            return (0.0, full or 0.0) if length_mm < longest_mm else (full or 0.0, full or 0.0)
        if full is None:
            full = rate * (longest_mm - shortest_mm)
        force = max(full - rate * (longest_mm - length_mm), 0.0)
        return force, force


def elastic_of(cord: Cord) -> Elastic | str:
    """Return an elastic as the job states it, or one sentence that asks for what is missing."""
    if cord.force_n is None and cord.rate_n_per_mm is None:
        return (
            f"the force of {cord.name} is not known: hang it on a spring balance and state force_n at full stretch "
            "and rate_n_per_mm"
        )
    return Elastic(full_n=cord.force_n, rate_n_per_mm=cord.rate_n_per_mm)
