"""What a paper says, as one text."""

from __future__ import annotations

from planner.output import Sheet
from planner.output.paper_files.sheet import Beside, Block, Facts, Heading, Rows, Ticks, Words


def flat(blocks: tuple[Block, ...]) -> list[Block]:
    """Return blocks with those of two columns among them."""
    found: list[Block] = []
    for block in blocks:
        found += flat((*block.left, *block.right)) if isinstance(block, Beside) else [block]
    return found


def said(sheet: Sheet) -> str:
    """Return every word of a paper."""
    texts: list[str] = []
    for card in sheet.cards:
        texts.append(card.title)
        for block in flat(card.blocks):
            if isinstance(block, Rows):
                texts += [*block.head, *(cell for row in block.rows for cell in row)]
            elif isinstance(block, Facts):
                texts += [cell for row in block.rows for cell in row]
            elif isinstance(block, Ticks):
                texts += block.steps
            elif isinstance(block, Words | Heading):
                texts.append(block.text)
    return " | ".join(texts)
