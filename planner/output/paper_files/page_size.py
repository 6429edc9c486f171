"""Paper: A4 (ISO 216) and Letter (ANSI/ASME Y14.1), with the room that the papers leave free."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PaperName = Literal["a4", "letter"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PageSize:
    """One size of paper, upright, in mm, with margins that every desktop printer can keep."""

    name: PaperName
    css: str
    width_mm: float
    height_mm: float
    margin_mm: float = 13.0
    head_mm: float = 22.0
    foot_mm: float = 8.0

    @property
    def inner_mm(self) -> tuple[float, float]:
        """Width and height between head and foot."""
        return (
            self.width_mm - 2 * self.margin_mm,
            self.height_mm - 2 * self.margin_mm - self.head_mm - self.foot_mm,
        )


SIZES: dict[PaperName, PageSize] = {
    "a4": PageSize(name="a4", css="A4", width_mm=210.0, height_mm=297.0),
    "letter": PageSize(name="letter", css="Letter", width_mm=215.9, height_mm=279.4),
}
