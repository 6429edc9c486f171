"""A drawing in mm, y upward, in ink and greys: written as SVG for a page, and drawn by the PDF at the same size."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from typing import Literal

Point = tuple[float, float]
Anchor = Literal["start", "middle"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Closed rings, filled by the even-odd rule, or open lines. ``fill`` is a grey, 0 black to 1 white; None: empty."""

    rings: tuple[tuple[Point, ...], ...]
    closed: bool = True
    fill: float | None = None
    stroke_mm: float = 0.3
    dashed: bool = False
    ink_share: float = 0.0
    """Grey of the lines, 0 black to 1 white."""
    hue: str = ""
    """Colour of the filling on a page; papers keep the grey."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words at a point of their base line."""

    at: Point
    text: str
    size_mm: float = 3.2
    anchor: Anchor = "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Shapes and labels on a ground of ``width_mm`` by ``height_mm``; ``true_size`` binds who prints it."""

    width_mm: float
    height_mm: float
    about: str
    """The drawing in words, for people who cannot see it."""
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...] = ()
    true_size: bool = False
    short: bool = False
    """Whether its lines may be rounded to 0.02 mm, to make pages small."""


def svg(drawing: Drawing) -> str:
    """Return the drawing as inline SVG; at true size its width and height are in mm."""
    high = drawing.height_mm
    size = f' width="{drawing.width_mm:g}mm" height="{high:g}mm"' if drawing.true_size else ""
    kind = "true" if drawing.true_size else "fit"
    view = f'viewBox="0 0 {drawing.width_mm:g} {high:g}" role="img" aria-label="{escape(drawing.about)}"'
    parts = [f'<svg class="{kind}"{size} {view}>']
    parts += [_shape(shape, high, _short if drawing.short else _exact) for shape in drawing.shapes]
    parts += [
        f'<text x="{label.at[0]:.2f}" y="{high - label.at[1]:.2f}" font-size="{label.size_mm:g}" '
        f'text-anchor="{label.anchor}">{escape(label.text)}</text>'
        for label in drawing.labels
    ]
    return "".join([*parts, "</svg>"])


def _exact(ring: tuple[Point, ...]) -> str:
    """Return a ring as a path, to a thousandth of a millimetre."""
    return "M" + "L".join(f"{x:.3f},{y:.3f}" for x, y in ring)


def _short(ring: tuple[Point, ...]) -> str:
    """Return a ring as a path with steps of 0.02 mm, each told from the point before it.

    >>> _short(((1.0, 2.0), (1.5, 1.96), (1.5, 3.0)))
    'M1 2l.5-.04 0 1.04'
    """
    steps = [(round(50 * x), round(50 * y)) for x, y in ring]
    words = [f"M{steps[0][0] / 50:g} {steps[0][1] / 50:g}l"]
    for (a, b), (c, d) in pairwise(steps):
        for value in (c - a, d - b):
            text = f"{value / 50:g}".replace("0.", ".", 1) if abs(value) < 50 else f"{value / 50:g}"
            words.append(text if text[0] == "-" or words[-1][-1] == "l" else f" {text}")
    return "".join(words)


def _shape(shape: Shape, high: float, said: Callable[[tuple[Point, ...]], str]) -> str:
    """Return one shape as a path, y turned downward."""
    end = "Z" if shape.closed else ""
    path = "".join(said(tuple((x, high - y) for x, y in ring)) + end for ring in shape.rings)
    fill = shape.hue or ("none" if shape.fill is None else _grey(shape.fill))
    dash = ' stroke-dasharray="2 1.5"' if shape.dashed else ""
    stroke = (
        f'stroke="{_grey(shape.ink_share)}" stroke-width="{shape.stroke_mm:g}"' if shape.stroke_mm else 'stroke="none"'
    )
    return f'<path fill="{fill}" fill-rule="evenodd" {stroke}{dash} d="{path}"/>'


def _grey(light: float) -> str:
    """Return a grey as a colour of the page.

    >>> _grey(0.0), _grey(1.0)
    ('#000', '#ffffff')
    """
    return "#" + f"{round(255 * light):02x}" * 3 if light else "#000"


def box(
    x_mm: float, y_mm: float, width_mm: float, height_mm: float, *, fill: float | None = None, stroke_mm: float = 0.3
) -> Shape:
    """Return a rectangle from its lower left corner."""
    right_mm, top_mm = x_mm + width_mm, y_mm + height_mm
    ring = ((x_mm, y_mm), (right_mm, y_mm), (right_mm, top_mm), (x_mm, top_mm))
    return Shape(rings=(ring,), fill=fill, stroke_mm=stroke_mm)
