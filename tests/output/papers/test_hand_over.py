"""The hand-over sheet: it names what is there, and nothing else."""

from __future__ import annotations

from planner.output import SIZES, Sheet, bench_papers
from tests.output.conftest import MakePlan
from tests.output.said import said


def test_the_hand_over_sheet_names_what_is_there(sheets: dict[str, Sheet], make_plan_of: MakePlan) -> None:
    """The Heron has metal, cord, straps and padding; a lone plate has nothing of that, and its sheet promises none."""
    bare = {sheet.name: sheet for sheet in bench_papers(make_plan_of(), SIZES["a4"])}

    assert "metal screws, nuts or pins, cord, straps and padding" in said(sheets["hand-over"])
    assert "and nothing else" in said(bare["hand-over"])
