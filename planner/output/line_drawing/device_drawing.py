"""The device put together, as one drawing: parts in the colour of their plate, each with its number."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from planner.job import part_of
from planner.output.drawing.part_picture import VIEW
from planner.output.drawing.shapes import Drawing, Label, Shape
from planner.output.line_drawing.copies_standing import Standing
from planner.output.line_drawing.scene import DrawnFrame, Scene
from planner.output.line_drawing.view_grid import looking

WIDE_MM, HIGH_MM = 160.0, 120.0
RIM_MM = 4.0
FINE_MM = 0.06
GRID_PX = 900
NUMBER_MM = 4.4
APART_MM = 5.5
"""A number nearer to another one is left out; the list beside the picture still names its part."""
GREY = 0.9


def device_drawing(standing: Standing, hues: Mapping[str, str], numbers: Mapping[str, int], about: str) -> Drawing:
    """Return the device seen from its front right; ``hues`` and ``numbers`` are by part.

    A part's number stands where most of one of its copies is seen; it is left out where nothing of them is.
    """
    every = list(standing.bodies)
    scene = Scene(standing.bodies, looking(VIEW), GRID_PX)
    nearest = scene.nearest(every)
    low, high = scene.box_of(every)
    room = np.array([WIDE_MM, HIGH_MM]) - 2 * RIM_MM
    times = float((room / np.maximum(high - low, 1e-9)).min())
    half = np.array([WIDE_MM, HIGH_MM]) / times / 2
    a, b = (low + high) / 2 - half, (low + high) / 2 + half
    frame = DrawnFrame(low_mm=(float(a[0]), float(a[1])), high_mm=(float(b[0]), float(b[1])), ratio=times)
    shapes = []
    for hue in dict.fromkeys(hues.values()):
        mine = [copy for copy in every if hues.get(part_of(copy)) == hue]
        rings = scene.covered(mine, nearest, frame) if mine else ()
        shapes += [Shape(rings=rings, fill=GREY, stroke_mm=0.0, hue=hue)] if rings else []
    edges = scene.lines(every, nearest, frame, FINE_MM)
    shapes += [replace(edges, stroke_mm=0.3)] if edges else []
    return Drawing(
        width_mm=WIDE_MM,
        height_mm=HIGH_MM,
        about=about,
        shapes=tuple(shapes),
        labels=_numbers(standing, scene, nearest, frame, numbers),
        short=True,
    )


def _numbers(
    standing: Standing, scene: Scene, nearest: np.ndarray, frame: DrawnFrame, numbers: Mapping[str, int]
) -> tuple[Label, ...]:
    """Return the numbers, those of the parts that are seen most first."""
    places = []
    for part, number in numbers.items():
        spots = [scene.middle_of(copy, nearest) for copy in standing.of(part)]
        best = max((spot for spot in spots if spot is not None), key=lambda spot: spot[0], default=None)
        if best is not None:
            places.append((best[0], number, frame.at(best[1])))
    found: list[Label] = []
    for _, number, (x, y) in sorted(places, key=lambda place: (-place[0], place[1])):
        if all(max(abs(x - label.at[0]), abs(y - label.at[1])) >= APART_MM for label in found):
            found.append(Label(at=(round(x, 1), round(y, 1)), text=str(number), size_mm=NUMBER_MM))
    return tuple(found)
