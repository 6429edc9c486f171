"""The texts of blocks: all of them in order, and blocks with every text changed by one rule."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from planner.output.paper_files.sheet import Beside, Block, Facts, Lines, Picture, Rows, Stamp, Ticks

Change = Callable[[str], str]


def with_texts(blocks: Sequence[Block], change: Change) -> tuple[Block, ...]:
    """Return blocks whose texts are all changed, those on drawings too."""
    return tuple(_one(block, change) for block in blocks)


def texts_of(blocks: Sequence[Block]) -> Iterator[str]:
    """Yield every text of some blocks, in order."""
    found: list[str] = []

    def keep(text: str) -> str:
        """Keep a text as it is, and remember it."""
        found.append(text)
        return text

    with_texts(blocks, keep)
    yield from found


def _one(block: Block, change: Change) -> Block:
    """Return one block, changed."""
    if isinstance(block, Rows):
        head = tuple(change(cell) for cell in block.head)
        return replace(block, head=head, rows=tuple(tuple(change(cell) for cell in row) for row in block.rows))
    if isinstance(block, Facts):
        return replace(block, rows=tuple((change(a), change(b), change(c)) for a, b, c in block.rows))
    if isinstance(block, Ticks):
        return replace(block, steps=tuple(change(step) for step in block.steps))
    if isinstance(block, Lines):
        return replace(block, labels=tuple(change(label) for label in block.labels))
    if isinstance(block, Beside):
        return replace(block, left=with_texts(block.left, change), right=with_texts(block.right, change))
    if isinstance(block, Stamp):
        return replace(block, text=change(block.text), below=change(block.below))
    if isinstance(block, Picture):
        labels = tuple(replace(label, text=change(label.text)) for label in block.drawing.labels)
        return replace(block, drawing=replace(block.drawing, labels=labels))
    return replace(block, text=change(block.text))
