"""A quantity over scale, straight between knots: what geometry gave at several sizes, as plain arithmetic."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Values at rising scales (factors); beyond the ends the first and last line go on.

    Parameters
    ----------
    scales : two or more, rising
    values : as many
    """

    scales: tuple[float, ...]
    values: tuple[float, ...]

    def at(self, s: float) -> float:
        """Return the value at a scale.

        >>> Curve(scales=(1.0, 2.0), values=(10.0, 30.0)).at(1.5)
        20.0
        """
        place = 1
        while place < len(self.scales) - 1 and s > self.scales[place]:
            place += 1
        return self._on_line(place, s)

    def _on_line(self, place: int, s: float) -> float:
        """Return the value on the line that ends at a knot."""
        left, right = self.scales[place - 1], self.scales[place]
        slope = (self.values[place] - self.values[place - 1]) / (right - left)
        if slope == 0.0:
            return self.values[place]
        return self.values[place] + slope * (s - right)

    def crossings(self, level: float) -> tuple[float, ...]:
        """Return every scale at which the value passes a level, and every knot that lies on it.

        >>> Curve(scales=(1.0, 2.0), values=(10.0, 30.0)).crossings(25.0)
        (1.75,)
        """
        found: set[float] = set()
        last = len(self.scales) - 2
        for place, (left, right) in enumerate(pairwise(self.scales)):
            rise = self.values[place + 1] - self.values[place]
            if rise == 0.0:
                continue
            s = left + (level - self.values[place]) * (right - left) / rise
            if (place == 0 or s >= left) and (place == last or s <= right) and s > 0.0:
                found.add(s)
        return tuple(sorted(found))
