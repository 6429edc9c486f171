"""A paragraph of a translated paper: any script, either direction, and English in small type below what needs it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

from planner.output.paper_files.lettering.line_order import PlacedLine, draw_line, placed_line
from planner.output.paper_files.lettering.script_runs import follows
from planner.output.tongue import ENGLISH_BELOW, KEPT_LEFT_TO_RIGHT

ENGLISH_SHARE = 0.82
"""Type of the English below, in parts of the type above it, but never under ``ENGLISH_LEAST_PT``."""
ENGLISH_LEAST_PT = 7.0
ENGLISH_GREY_SHARE = 0.25
SCRIPT_LEADING = 1.18
"""Arabic and Devanagari reach higher and lower than Latin letters: their lines stand so much farther apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A line that is set: its type, the room that it takes, and its left end, all in points."""

    placed: PlacedLine
    size_pt: float
    leading_pt: float
    left_pt: float
    grey_share: float


class SetText(Flowable):  # type: ignore[misc]  # the library ships no types
    """A paragraph laid out line by line, each in the order of its own letters."""

    def __init__(self, text: str, style: ParagraphStyle, *, leftward: bool, tall: bool = False) -> None:
        super().__init__()
        self.text, self.style, self.leftward, self.tall = text, style, leftward, tall
        self.lines: list[_Line] = []
        self.spaceBefore, self.spaceAfter = style.spaceBefore, style.spaceAfter

    def wrap(self, wide: float, high: float) -> tuple[float, float]:  # noqa: ARG002  the library's own signature
        """Lay the lines out for a width, and return the room they take, in points."""
        own, *english = self.text.split(ENGLISH_BELOW)
        alone = not own and bool(english)  # what no catalogue holds stands in English only
        lines = [] if alone else self._laid_out(own, wide, self.style.fontSize, leftward=self.leftward, grey_share=0.0)
        self.lines = lines
        small_pt = max(ENGLISH_LEAST_PT, min(ENGLISH_SHARE * self.style.fontSize, 9.0))
        for one in english:
            self.lines += self._laid_out(one, wide, small_pt, leftward=False, grey_share=ENGLISH_GREY_SHARE)
        self.width, self.height = wide, sum(line.leading_pt for line in self.lines)
        return wide, self.height

    def split(self, wide: float, high: float) -> list[Flowable]:  # noqa: ARG002  the library's own signature
        """Return nothing: a text of a few lines goes to the next page whole."""
        return []

    def draw(self) -> None:
        """Draw the lines from the top."""
        canvas, top = self.canv, self.height
        for line in self.lines:
            top -= line.leading_pt
            canvas.setFillGray(line.grey_share)
            at = (line.left_pt, top + 0.27 * line.leading_pt)
            draw_line(canvas, at, line.placed, self.style.fontName, line.size_pt)
        canvas.setFillGray(0.0)

    def _laid_out(self, text: str, wide: float, size_pt: float, *, leftward: bool, grey_share: float) -> list[_Line]:
        """Return one text in lines that a width holds."""
        font, found = self.style.fontName, []
        for row in rows_of(text, font, size_pt, wide, leftward=leftward):
            placed = placed_line(row, font, size_pt, leftward=leftward)
            leading_pt = size_pt * self.style.leading / self.style.fontSize
            if self.tall and not grey_share:
                leading_pt *= SCRIPT_LEADING
            free = wide - placed.wide_pt
            at_end = self.style.alignment == 2
            left_pt = free / 2.0 if self.style.alignment == 1 else free if at_end != self.leftward else 0.0
            found.append(
                _Line(placed=placed, size_pt=size_pt, leading_pt=leading_pt, left_pt=left_pt, grey_share=grey_share)
            )
        return found


def rows_of(text: str, font: str, size_pt: float, wide_pt: float, *, leftward: bool) -> list[str]:
    """Return a text in rows of a width, broken at blanks, and inside a word where it alone is wider."""

    def fits(some: str) -> bool:
        return placed_line(some, font, size_pt, leftward=leftward).wide_pt <= wide_pt + 0.01

    rows: list[str] = []
    for word in text.split(" "):
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and fits(longer):
            rows[-1] = longer
            continue
        rest = word
        while not fits(rest) and len(rest) > 1:
            cut_n = next((n for n in range(len(rest) - 1, 0, -1) if fits(rest[:n]) and not follows(rest[n])), 1)
            rows.append(rest[:cut_n])
            rest = rest[cut_n:]
        rows.append(rest)
    return _kept_on(rows) if leftward else rows


def _kept_on(rows: list[str]) -> list[str]:
    """Return rows in which words kept from left to right stay so where a row ends among them: "(2.95 mm)" as written.

    Marks stand in pairs about such words; each row is ordered by itself, so that one in between needs both of its own.
    """
    kept, inside = [], False
    for row in rows:
        ends = inside != bool(row.count(KEPT_LEFT_TO_RIGHT) % 2)
        kept.append(KEPT_LEFT_TO_RIGHT * inside + row + KEPT_LEFT_TO_RIGHT * ends)
        inside = ends
    return kept


def write_set(
    canvas: Any,
    at: tuple[float, float],
    text: str,
    font: str,
    size_pt: float,
    *,
    leftward: bool,
    middle: bool = False,
    after: bool = False,
) -> None:
    """Write one line with its beginning, or its middle, at a point: to the left of it where the language runs so.

    ``after``: to the right of the point in any language, as in a drawing, which does not change sides.
    """
    line = placed_line(text, font, size_pt, leftward=leftward)
    back = line.wide_pt / 2.0 if middle else line.wide_pt if leftward and not after else 0.0
    draw_line(canvas, (at[0] - back, at[1]), line, font, size_pt)
