"""A drawing in mm, y upward, in ink and greys: written as SVG for a page, and drawn by the PDF at the same size."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
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


def svg(drawing: Drawing) -> str:
    """Return the drawing as inline SVG; at true size its width and height are in mm."""
    high = drawing.height_mm
    size = f' width="{drawing.width_mm:g}mm" height="{high:g}mm"' if drawing.true_size else ""
    kind = "true" if drawing.true_size else "fit"
    view = f'viewBox="0 0 {drawing.width_mm:g} {high:g}" role="img" aria-label="{escape(drawing.about)}"'
    parts = [f'<svg class="{kind}"{size} {view}>']
    parts += [_shape(shape, high) for shape in drawing.shapes]
    parts += [
        f'<text x="{label.at[0]:.2f}" y="{high - label.at[1]:.2f}" font-size="{label.size_mm:g}" '
        f'text-anchor="{label.anchor}">{escape(label.text)}</text>'
        for label in drawing.labels
    ]
    return "".join([*parts, "</svg>"])


def _shape(shape: Shape, high: float) -> str:
    """Return one shape as a path, y turned downward."""
    end = "Z" if shape.closed else ""
    path = " ".join("M" + "L".join(f"{x:.3f},{high - y:.3f}" for x, y in ring) + end for ring in shape.rings)
    fill = "none" if shape.fill is None else "#" + f"{round(255 * shape.fill):02x}" * 3
    dash = ' stroke-dasharray="2 1.5"' if shape.dashed else ""
    stroke = f'stroke="#000" stroke-width="{shape.stroke_mm:g}"' if shape.stroke_mm else 'stroke="none"'
    return f'<path fill="{fill}" fill-rule="evenodd" {stroke}{dash} d="{path}"/>'


def box(
    x_mm: float, y_mm: float, width_mm: float, height_mm: float, *, fill: float | None = None, stroke_mm: float = 0.3
) -> Shape:
    """Return a rectangle from its lower left corner."""
    right_mm, top_mm = x_mm + width_mm, y_mm + height_mm
    ring = ((x_mm, y_mm), (right_mm, y_mm), (right_mm, top_mm), (x_mm, top_mm))
    return Shape(rings=(ring,), fill=fill, stroke_mm=stroke_mm)
