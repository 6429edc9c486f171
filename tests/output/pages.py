"""A PDF's pages as an independent reader sees them (pdfplumber on pdfminer.six): text, rectangles and curves in mm."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Any

import pdfplumber

MM = 25.4 / 72.0
"""A PDF unit is 1/72 inch (ISO 32000-1, 8.3.2.3)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page; rectangles as (width, height), curves as their points, all in mm."""

    width_mm: float
    height_mm: float
    text: str
    rects: tuple[tuple[float, float], ...]
    curves: tuple[tuple[tuple[float, float], ...], ...]
    strokes: tuple[tuple[float, tuple[tuple[float, float], ...]], ...]
    """Lines and curves with the width of their stroke."""
    letters: tuple[tuple[str, float], ...]
    reach_mm: tuple[float, float, float, float]
    """Left, top, right and bottom of everything drawn."""

    def letters_of(self, size: float) -> str:
        """Return the letters of one size of type."""
        return "".join(letter for letter, have in self.letters if abs(have - size) < 0.5)


def pages_of(raw: bytes, *, inside: bool = False) -> list[Page]:
    """Read a PDF; ``inside``: text that lies on its paper alone, for a browser draws what goes on to the next page twice."""
    with pdfplumber.open(io.BytesIO(raw)) as file:
        return [_page(page, (page.within_bbox(page.bbox) if inside else page).extract_text()) for page in file.pages]


def _page(page: Any, text: str | None) -> Page:
    """Read one page."""
    drawn = [*page.rects, *page.curves, *page.lines, *page.chars]
    return Page(
        width_mm=float(page.width) * MM,
        height_mm=float(page.height) * MM,
        text=text or "",
        rects=tuple(((r["x1"] - r["x0"]) * MM, (r["bottom"] - r["top"]) * MM) for r in page.rects),
        curves=tuple(tuple((x * MM, y * MM) for x, y in c["pts"]) for c in page.curves),
        strokes=tuple(
            (float(c["linewidth"]) * MM, tuple((x * MM, y * MM) for x, y in c["pts"]))
            for c in [*page.curves, *page.lines]
        ),
        letters=tuple((c["text"], float(c["size"])) for c in page.chars),
        reach_mm=(
            min(one["x0"] for one in drawn) * MM,
            min(one["top"] for one in drawn) * MM,
            max(one["x1"] for one in drawn) * MM,
            max(one["bottom"] for one in drawn) * MM,
        ),
    )


Box = tuple[float, float, float, float]
"""Left, bottom, right and top in mm, from the page's lower left corner."""


def boxes_of(raw: bytes) -> list[list[Box]]:
    """Return, page by page, the boxes round every closed shape."""
    with pdfplumber.open(io.BytesIO(raw)) as file:
        return [
            [(s["x0"] * MM, s["y0"] * MM, s["x1"] * MM, s["y1"] * MM) for s in [*page.rects, *page.curves]]
            for page in file.pages
        ]


def sized(boxes: list[Box], side_mm: float) -> list[Box]:
    """Return the boxes that are squares of a size, within 0.2 mm."""
    return [b for b in boxes if abs(b[2] - b[0] - side_mm) <= 0.2 and abs(b[3] - b[1] - side_mm) <= 0.2]
