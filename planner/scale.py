"""How large something is printed against its drawing: one number, told in percent and counted with as a factor."""

from __future__ import annotations

from dataclasses import dataclass

Percents = float | tuple[float, float, float]


@dataclass(frozen=True, slots=True, order=True)
class Scale:
    """A scale; ``percent`` is what people and files state, 100 for the drawn size.

    >>> Scale(112.0).factor
    1.12
    >>> Scale.of_factor(1.5).percent
    150.0
    >>> print(Scale(106.5))
    106.5 %
    """

    percent: float

    @classmethod
    def of_factor(cls, factor: float) -> Scale:
        """Return the scale of a factor, 1.0 for the drawn size."""
        return cls(100.0 * factor)

    @property
    def factor(self) -> float:
        """By what a drawn length is multiplied."""
        return self.percent / 100.0

    def __str__(self) -> str:
        return f"{self.percent:g} %"


DRAWN = Scale(100.0)
"""The drawn size."""


def axis_factors(percents: Percents) -> tuple[float, float, float]:
    """Return the factors along x, y and z of one percent, or of three.

    >>> axis_factors((100.0, 100.0, 110.0))
    (1.0, 1.0, 1.1)
    """
    x, y, z = percents if isinstance(percents, tuple) else (percents, percents, percents)
    return Scale(x).factor, Scale(y).factor, Scale(z).factor
