"""Blocks with no text longer than a limit: a name of a thousand letters must not stop the papers from being printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.output.paper_files.sheet import Block, Picture
from planner.output.words.block_texts import with_texts

ON_DRAWING_N = 110
"""Letters on a drawing: more do not fit one line across a page at the smallest type there."""


def short(text: str, longest_n: int) -> str:
    """Return a text, cut with an ellipsis where it has more letters than the limit.

    >>> short("a long name", 6)
    'a lon…'
    """
    return text if len(text) <= longest_n else text[: longest_n - 1] + "…"


def shortened(blocks: Sequence[Block], longest_n: int) -> tuple[Block, ...]:
    """Return blocks whose texts are all cut to a limit; what is cut stands whole in the HTML papers."""
    return tuple(
        replace(block, drawing=with_texts([block], lambda text: short(text, ON_DRAWING_N))[0].drawing)  # type: ignore[union-attr]
        if isinstance(block, Picture)
        else with_texts([block], lambda text: short(text, longest_n))[0]
        for block in blocks
    )
