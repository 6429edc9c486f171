"""A paper, said once and printed twice: blocks of words, tables and drawings that HTML and PDF both understand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.output.drawing.shapes import Drawing

BOX = "\u2610"
"""A cell that holds only this is a box to tick."""
Tone = Literal["plain", "small", "strong", "warning"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A line over what follows."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph; a warning stands in a frame."""

    text: str
    tone: Tone = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """The largest words on a paper: released or not."""

    text: str
    below: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Names with values, and a reason beside each value; without one the value has its room, too."""

    rows: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A table. ``shares`` are the widths of its columns, ``right`` the columns with numbers."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    shares: tuple[float, ...]
    right: tuple[int, ...] = ()
    written: bool = False
    """True where a person fills it in with a pencil: its rows are as high as handwriting."""
    drawings: tuple[Drawing | None, ...] = ()
    """One for each row, in a column of their own after the first; empty where rows have none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticks:
    """Steps, each with a box to tick; numbered where their order matters."""

    steps: tuple[str, ...]
    ordered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing; at true size where the drawing says so, else as wide as ``share`` of the paper."""

    drawing: Drawing
    share: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Lines to write on, each with a word in front: a role, a date, a reading."""

    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """Blocks in two columns; ``share`` is the left one's part of the paper."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]
    share: float = 0.5


Block = Heading | Words | Stamp | Facts | Rows | Ticks | Picture | Lines | Beside


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What starts on a page of its own, under a head with the big letter of its side."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One paper: a file of its own in HTML, some pages of the PDF."""

    name: str
    """Stem of its file."""
    title: str
    cards: tuple[Card, ...]
    head: Head | None = None
    """Its own where it speaks another language than the other papers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What stands over every card: whose, which size, which side, made by what; and in which language."""

    job: str
    recipient: str
    """The code, where the job's name does not hold it already."""
    size: str
    letter: str
    """L, R, or empty where the job names no side."""
    side: str
    maker: str
    bar: str = ""
    """What must not be done, where the verdict is a hold or a no-go: it stands on every page."""
    language: str = "en"
    leftward: bool = False
    """Whether the language runs from right to left; then the whole paper does."""
    paged: str = "{number} of {count}"
    """The number of a page, with how many there are."""
    box: str = "box to tick"
    """What a box to tick is called for people who cannot see it; so are the papers and the file of them all."""
    papers: str = "papers"
    together: str = "all as one PDF"
