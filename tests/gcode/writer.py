"""Programs for the tests: written from the layer model's own lines, so that what they must give is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import numpy as np

from planner.job import Settings
from planner.layers import bead_area_mm2, laid_layers
from planner.layers.lines.paths import TRAVEL
from planner.mesh import Solid

FILAMENT_MM2 = np.pi * 1.75**2 / 4


@dataclass(kw_only=True)
class Program:
    """How a program is written; every field is a thing that a writer may do its own way, or do wrong."""

    nozzle_c: float = 235.0
    bed_c: float = 75.0
    relative: bool = True
    inches: bool = False
    skirt: bool = True
    scale: float = 1.0
    lift_mm: float = 0.0
    skip_layer: int | None = None
    shift_mm: tuple[float, float] = (0.0, 0.0)
    set_late: bool = False
    first_mm_s: float = 40.0
    feeds_mm_s: dict[int, float] = field(default_factory=dict)
    also: tuple[str, ...] = ()
    lines: list[str] = field(default_factory=list)
    e: float = 0.0

    def write(self, path: Path, copies: Sequence[Solid], settings: Settings) -> Path:
        """Write solids at their places as one program, layer by layer."""
        unit = 25.4 if self.inches else 1.0
        heat = [f"M140 S{self.bed_c:g}", f"M104 S{self.nozzle_c:g}"]
        self.lines = ["; this comment says 999 layers", "G20" if self.inches else "G21", "G90"]
        self.lines += ["M83" if self.relative else "M82", *([] if self.set_late else heat), *self.also, "G28", "G92 E0"]
        stacks = [list(laid_layers(solid, settings).layers()) for solid in copies]
        if self.skirt:
            self._ring(copies, settings, unit)
        for k in range(max(len(stack) for stack in stacks)):
            if k == self.skip_layer:
                continue
            for stack in stacks:
                if k < len(stack):
                    self._layer(stack[k], settings, unit)
            if k == 0 and self.set_late:
                self.lines += heat
        path.write_text("\n".join([*self.lines, "M104 S0", "M84"]) + "\n", encoding="utf-8")
        return path

    def _put(self, x: float, y: float, z: float, de: float, feed: float, unit: float) -> None:
        """Write one move."""
        self.e = (0.0 if self.relative else self.e) + de
        out = f" E{self.e / unit:.6f}" if de else ""
        where = (f"{self.scale * value / unit:.5f}" for value in (x + self.shift_mm[0], y + self.shift_mm[1], z))
        self.lines.append("G1 X{} Y{} Z{}".format(*where) + out + f" F{feed * 60 / unit:.3f}")

    def _layer(self, laid: object, settings: Settings, unit: float) -> None:
        """Write one layer of one copy."""
        layer: object = laid
        path, top, high = layer.path, layer.top_mm, layer.height_mm  # type: ignore[attr-defined]
        if not path.points:
            return
        points, kinds = np.concatenate(path.points), np.concatenate(path.kinds)
        bead = bead_area_mm2(settings.line_width_mm.value, high) * self.scale**2
        z = top + self.lift_mm * round(top / settings.layer_height_mm.value)
        self.lines.append(f"G1 E-{0.8 / unit:.5f} F1800" if self.relative else "; drawn back elsewhere")
        self._put(points[0, 0], points[0, 1], z, 0.0, 100.0, unit)
        self.lines.append(f"G1 E{0.8 / unit:.5f} F1800" if self.relative else "; and put back")
        for here, there, kind in zip(points[:-1], points[1:], kinds, strict=True):
            length = float(np.linalg.norm(there - here)) * self.scale
            de = 0.0 if kind == TRAVEL else length * bead / FILAMENT_MM2
            feed = self.feeds_mm_s.get(int(kind), 100.0 if kind == TRAVEL else 40.0)
            ground = kind != TRAVEL and top <= settings.first_layer_height_mm.value + 1e-9
            self._put(there[0], there[1], z, de, self.first_mm_s if ground else feed, unit)

    def _ring(self, copies: Sequence[Solid], settings: Settings, unit: float) -> None:
        """Write a skirt round all copies and a prime stroke beside it, on the ground."""
        low = np.min([solid.bounds_mm[0, :2] for solid in copies], axis=0) - 5
        high = np.max([solid.bounds_mm[1, :2] for solid in copies], axis=0) + 5
        z = settings.first_layer_height_mm.value
        ring = [(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]), (low[0], low[1])]
        self._put(ring[0][0], ring[0][1], z, 0.0, 100.0, unit)
        for (ax, ay), (bx, by) in pairwise(ring):
            self._put(bx, by, z, float(np.hypot(bx - ax, by - ay)) * 0.03, 20.0, unit)
        self._put(low[0], low[1] - 3, z, 0.0, 100.0, unit)
        self._put(high[0], low[1] - 3, z, float(high[0] - low[0]) * 0.05, 20.0, unit)
