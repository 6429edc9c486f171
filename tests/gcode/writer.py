"""Programs for the tests: written from the layer model's own lines, so that what they must give is known."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.job import Settings
from planner.layers import bead_area_mm2
from planner.layers.lines.paths import NARROW, TRAVEL
from planner.mesh import Solid
from tests.gcode.copies.layer_lines import Layer, brim_of, round_n, stack_of

Floats = NDArray[np.float64]
FILAMENT_MM2 = np.pi * 1.75**2 / 4


@dataclass(kw_only=True)
class Program:
    """How a program is written; every field is a thing that a writer may do its own way, or do wrong."""

    nozzle_c: float = 235.0
    bed_c: float = 75.0
    fan_percent: float = 40.0
    fan_from: int = 3
    relative: bool = True
    inches: bool = False
    skirt: bool = True
    brim_n: int = 0
    in_turn: bool = False
    backwards: bool = False
    arcs: str = ""
    """"centre" or "radius": round outlines are written as arcs."""
    hop_mm: float = 0.0
    retract: str = "E"
    """"E", "G" (G10 and G11) or "" for none."""
    volume: bool = False
    rapid: bool = False
    reset: bool = False
    scale: float = 1.0
    up: float = 1.0
    """Stretch in height alone."""
    lift_mm: float = 0.0
    skip_layer: int | None = None
    shift_mm: tuple[float, float] = (0.0, 0.0)
    raise_mm: float = 0.0
    set_late: bool = False
    first_mm_s: float = 40.0
    feeds_mm_s: dict[int, float] = field(default_factory=dict)
    keep: Callable[[int, int, int], bool] | None = None
    """Of a line's copy, layer and kind."""
    fed: Callable[[int, int], float] | None = None
    """Filament over what the motion needs, of a copy and layer."""
    slip: Callable[[int, int], tuple[float, float]] | None = None
    """Where a copy's layer lies beside its place."""
    before: dict[int, tuple[str, ...]] = field(default_factory=dict)
    """Lines before a layer."""
    also: tuple[str, ...] = ()
    start: tuple[str, ...] = ()
    """Lines before and after the machine finds its zero."""
    end: tuple[str, ...] = ("M104 S0", "M84")
    edited: Callable[[list[str]], list[str]] | None = None
    """What is done with the lines before they are saved."""
    lines: list[str] = field(default_factory=list)
    e: float = 0.0
    at_z: float = 0.0

    @property
    def unit(self) -> float:
        """Return the millimetres of a written unit."""
        return 25.4 if self.inches else 1.0

    def write(self, path: Path, copies: Sequence[Solid], settings: Settings) -> Path:
        """Write solids at their places as one program, layer by layer or piece by piece."""
        heat = [f"M140 S{self.bed_c:g}", f"M104 S{self.nozzle_c:g}"]
        self.lines = ["; this comment says 999 layers", "G20" if self.inches else "G21", "G90"]
        self.lines += [
            "M83" if self.relative else "M82",
            *([] if self.set_late else heat),
            *self.also,
            "G28",
            "G92 E0",
            *self.start,
        ]
        self.e = self.at_z = 0.0
        stacks = [stack_of(solid, settings) for solid in copies]
        if self.skirt:
            self._ring(copies, settings)
        for copy in range(len(copies)) if self.in_turn else [-1]:
            for k in range(max(len(stack) for stack in stacks)):
                self._all(k, copy, stacks, settings)
                if k == 0 and self.set_late:
                    self.lines += heat
            if self.in_turn:
                self._clear(max(stack[-1].top_mm for stack in stacks))
        text = [*self.lines, *self.end]
        path.write_text("\n".join(self.edited(text) if self.edited else text) + "\n", encoding="utf-8")
        return path

    def _all(self, k: int, only: int, stacks: list[list[Layer]], settings: Settings) -> None:
        """Write a layer of all copies, or of one."""
        self.lines += self.before.get(k, ())
        if k == self.fan_from:
            self.lines.append(f"M106 S{self.fan_percent * 2.55:.2f}")
        if self.reset and not self.relative:
            self.lines.append("G92 E0")
            self.e = 0.0
        for copy, stack in enumerate(stacks):
            if k < len(stack) and k != self.skip_layer and only in (-1, copy):
                self._layer(stack[k], copy, k, settings)

    def _clear(self, top_mm: float) -> None:
        """Lift the nozzle over all that stands."""
        self.at_z = top_mm + 5.0
        self.lines.append(f"G1 Z{self.at_z / self.unit:.5f} F{600 / self.unit:.3f}")

    def _put(self, x: float, y: float, z: float, de: float, feed: float) -> None:
        """Write one move."""
        de_written = de * FILAMENT_MM2 / self.unit if self.volume else de / self.unit
        self.e = (0.0 if self.relative else self.e) + de_written
        out = f" E{self.e:.6f}" if de else ""
        where = [f"{value / self.unit:.5f}" for value in self._placed(x, y, z)]
        up = f" Z{where[2]}" if z != self.at_z or not self.rapid else ""
        self.at_z = z
        self.lines.append(
            f"{'G1' if de or not self.rapid else 'G0'} X{where[0]} Y{where[1]}{up}{out} F{feed * 60 / self.unit:.3f}"
        )

    def _placed(self, x: float, y: float, z: float) -> tuple[float, float, float]:
        """Return where a point is sent."""
        return (
            self.scale * (x + self.shift_mm[0]),
            self.scale * (y + self.shift_mm[1]),
            self.scale * self.up * z + self.raise_mm,
        )

    def _draw(self, by_mm: float) -> None:
        """Draw filament back, or put it forward again."""
        if self.retract == "G":
            self.lines.append("G10" if by_mm < 0 else "G11")
        elif self.retract == "E":
            amount = by_mm * FILAMENT_MM2 / self.unit if self.volume else by_mm / self.unit
            self.e = (0.0 if self.relative else self.e) + amount
            self.lines.append(f"G1 E{self.e:.6f} F{1800 / self.unit:.3f}")

    def _layer(self, layer: Layer, copy: int, k: int, settings: Settings) -> None:
        """Write one layer of one copy."""
        bead = bead_area_mm2(settings.line_width_mm.value, layer.high_mm) * self.scale**2
        bead *= self.fed(copy, k) if self.fed else 1.0
        z = layer.top_mm + self.lift_mm * round(layer.top_mm / settings.layer_height_mm.value)
        ground = layer.top_mm <= settings.first_layer_height_mm.value + 1e-9
        runs = [(kind, points) for kind, points in layer.runs if not self.keep or self.keep(copy, k, kind)]
        if self.backwards:
            runs = [(kind, points[::-1]) for kind, points in reversed(runs)]
        if ground and self.brim_n:
            runs = [*brim_of(layer, self.brim_n, settings.line_width_mm.value), *runs]
        x, y = self.slip(copy, k) if self.slip else (0.0, 0.0)
        for index, (kind, points) in enumerate(runs):
            there = points + np.array([x, y])
            if not index:
                self._draw(-0.8)
            if self.hop_mm and not index:
                self._put(there[0, 0], there[0, 1], z + self.hop_mm, 0.0, 100.0)
            self._put(there[0, 0], there[0, 1], z, 0.0, self.feeds_mm_s.get(TRAVEL, 100.0))
            if not index:
                self._draw(0.8)
            feed = self.first_mm_s if ground else self.feeds_mm_s.get(kind, 40.0)
            self._line(there, z, bead, feed)
        for points, share in layer.narrow:
            if not self.keep or self.keep(copy, k, NARROW):
                there = points + np.array([x, y])
                self._put(there[0, 0], there[0, 1], z, 0.0, 100.0)
                self._line(there, z, bead * share, self.first_mm_s if ground else 40.0)

    def _line(self, points: Floats, z: float, bead_mm2: float, feed: float) -> None:
        """Write a run of lines, what is round in it as arcs where that is wanted."""
        k, told = 0, points.tolist()
        while k < len(points) - 1:
            n = round_n(points[k:]) if self.arcs else 0
            ends = told[k : k + (n or 1) + 1]
            length = sum(math.dist(a, b) for a, b in pairwise(ends)) * self.scale
            before = len(self.lines)
            self._put(ends[-1][0], ends[-1][1], z, length * bead_mm2 / FILAMENT_MM2, feed)
            if n and len(self.lines) > before:
                self.lines[-1] = self._as_arc(self.lines[-1], points[k : k + n + 1])
            k += n or 1

    def _as_arc(self, line: str, piece: Floats) -> str:
        """Return a straight move as the arc that passes its points."""
        a, b, c = piece[0], piece[len(piece) // 2], piece[-1]
        area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        sides = [float(np.linalg.norm(q - p)) for p, q in ((a, b), (b, c), (c, a))]
        radius = sides[0] * sides[1] * sides[2] / (2 * abs(area))
        half = (c - a) / 2
        to_centre = np.array([-half[1], half[0]]) / np.linalg.norm(half) * np.sqrt(max(radius**2 - half @ half, 0.0))
        centre = (a + c) / 2 + (to_centre if area > 0 else -to_centre)
        word, factor = ("G3" if area > 0 else "G2"), self.scale / self.unit
        how = f"I{(centre - a)[0] * factor:.5f} J{(centre - a)[1] * factor:.5f}"
        if self.arcs == "radius":
            how = f"R{radius * factor:.5f}"
        head, _, tail = line.partition(" ")
        assert head == "G1"
        return f"{word} {tail.rpartition(' F')[0]} {how} F{tail.rpartition(' F')[2]}"

    def _ring(self, copies: Sequence[Solid], settings: Settings) -> None:
        """Write a skirt round all copies and a prime stroke beside it, on the ground."""
        low = np.min([solid.bounds_mm[0, :2] for solid in copies], axis=0) - 5
        high = np.max([solid.bounds_mm[1, :2] for solid in copies], axis=0) + 5
        z = settings.first_layer_height_mm.value
        ring = [(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]), (low[0], low[1])]
        self._put(ring[0][0], ring[0][1], z, 0.0, 100.0)
        for (ax, ay), (bx, by) in pairwise(ring):
            self._put(bx, by, z, float(np.hypot(bx - ax, by - ay)) * 0.03, 20.0)
        self._put(low[0], low[1] - 3, z, 0.0, 100.0)
        self._put(high[0], low[1] - 3, z, float(high[0] - low[0]) * 0.05, 20.0)
