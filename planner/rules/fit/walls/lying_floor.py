"""A lying floor is made of layers: it needs so many of them, and not so many lines."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3
from planner.job import Limits
from planner.rules.rule import at_least
from planner.sourced import Sourced
from planner.survey import ThinPlace

LYING_COS = 0.866
"""A wall within 30 degrees of lying flat: its layers are at least twice as wide as it is thick (geometry)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LyingFloor:
    """How thin a wall may be that lies in the chosen pose.

    ``layers`` are how many it needs for its duty, ``plain_layers`` for a cover; under ``least`` mm none is made.
    """

    down: Vec3
    layers: Sourced
    plain_layers: Sourced
    least: Sourced
    layer_height_mm: float

    @staticmethod
    def of(limits: Limits, down: Vec3, layer_height_mm: float, *, loaded: bool) -> LyingFloor:
        """Return what a part needs that lies so."""
        return LyingFloor(
            down=down,
            layers=limits.floor_load_layers if loaded else limits.floor_plain_layers,
            plain_layers=limits.floor_plain_layers,
            least=limits.floor_least_mm,
            layer_height_mm=layer_height_mm,
        )

    def limit_mm(self, lines_mm: float, *, plain: bool = False) -> float:
        """Return the least thickness of a floor; never more than what lines ask of a wall."""
        layers = self.plain_layers if plain else self.layers
        return min(lines_mm, max(self.least.value, layers.value * self.layer_height_mm))

    def holds(self, place: ThinPlace, s: float, lines_mm: float) -> bool:
        """Return whether all of a place that is thinner than lines ask lies: one that turns a corner is a wall, too."""
        thin = [way for thick, way in place.ways if not at_least(thick * s, lines_mm)]
        return bool(thin) and all(
            abs(sum(a * b for a, b in zip(way, self.down, strict=True))) >= LYING_COS for way in thin
        )
