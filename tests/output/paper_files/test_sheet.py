"""Every block of every paper is printed in both forms."""

from __future__ import annotations

from typing import get_args

from planner.output import SIZES, Sheet, head_of, html
from planner.output.paper_files.sheet import Block
from planner.plan import Plan
from tests.output.said import flat


def test_the_herons_papers_use_every_kind_of_block(sheets: dict[str, Sheet]) -> None:
    """But for two columns, which the helper opens: so the papers' tests see each kind."""
    used = {type(block).__name__ for sheet in sheets.values() for card in sheet.cards for block in flat(card.blocks)}

    assert used | {"Beside"} == {kind.__name__ for kind in get_args(Block)}


def test_every_card_has_a_title_and_something_on_it(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """No empty card; each title stands in the HTML paper."""
    for sheet in sheets.values():
        text = html([sheet], head_of(plan), SIZES["a4"])[f"{sheet.name}.html"]
        assert all(card.title in text and card.blocks for card in sheet.cards)
