"""Blocks with no text longer than a limit: a name of a thousand letters must not stop the papers from being printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.papers.sheet import Beside, Block, Facts, Lines, Picture, Rows, Stamp, Ticks


def short(text: str, longest_n: int) -> str:
    """Return a text, cut with an ellipsis where it has more letters than the limit.

    >>> short("a long name", 6)
    'a lon…'
    """
    return text if len(text) <= longest_n else text[: longest_n - 1] + "…"


def shortened(blocks: Sequence[Block], longest_n: int) -> tuple[Block, ...]:
    """Return blocks whose texts are all cut to a limit; what is cut stands whole in the HTML papers."""
    return tuple(_one(block, longest_n) for block in blocks)


def _one(block: Block, n: int) -> Block:
    """Return one block, cut."""
    if isinstance(block, Rows):
        rows = tuple(tuple(short(cell, n) for cell in row) for row in block.rows)
        return replace(block, head=tuple(short(cell, n) for cell in block.head), rows=rows)
    if isinstance(block, Facts):
        return replace(block, rows=tuple((short(a, n), short(b, n), short(c, n)) for a, b, c in block.rows))
    if isinstance(block, Ticks):
        return replace(block, steps=tuple(short(step, n) for step in block.steps))
    if isinstance(block, Lines):
        return replace(block, labels=tuple(short(label, n) for label in block.labels))
    if isinstance(block, Beside):
        return replace(block, left=shortened(block.left, n), right=shortened(block.right, n))
    if isinstance(block, Stamp):
        return replace(block, text=short(block.text, n), below=short(block.below, n))
    if isinstance(block, Picture):
        labels = tuple(replace(label, text=short(label.text, 48)) for label in block.drawing.labels)
        return replace(block, drawing=replace(block.drawing, labels=labels))
    return replace(block, text=short(block.text, n))
