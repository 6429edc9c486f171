"""All papers of one plan, in the order in which the bench needs them."""

from __future__ import annotations

from collections.abc import Mapping

from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.sheet import Sheet
from planner.output.papers.assembly_sheet import assembly_sheet
from planner.output.papers.bags import bag_list
from planner.output.papers.cut_sheet import cut_sheet
from planner.output.papers.drill_list import drill_list
from planner.output.papers.finishing import finishing
from planner.output.papers.function_test import function_test
from planner.output.papers.hand_over import hand_over
from planner.output.papers.job_sheet import job_sheet
from planner.output.papers.labels import labels
from planner.output.papers.padding import padding_templates
from planner.output.papers.plate_cards import plate_cards
from planner.output.record.record_sheet import record_sheet
from planner.output.record.release import Release
from planner.output.tongue import Tongue, tongue_of
from planner.plan import Plan


def bench_papers(
    plan: Plan, size: PageSize, judged: Release | None = None, ids: Mapping[int, str] | None = None
) -> tuple[Sheet, ...]:
    """Return every paper that has something on it; the hand-over sheet says NOT RELEASED until one is given.

    ``ids`` are those that plates have in a ledger, by number.
    """
    return papers_in(tongue_of(plan.job.language), plan, size, judged, ids)


def papers_in(
    tongue: Tongue, plan: Plan, size: PageSize, judged: Release | None = None, ids: Mapping[int, str] | None = None
) -> tuple[Sheet, ...]:
    """Return every paper, in a language as far as it speaks it: a paper without a head of its own is all English."""
    return (
        job_sheet(plan),
        plate_cards(plan, ids),
        labels(plan, size, tongue),
        finishing(plan, tongue),
        drill_list(plan),
        *([cut_sheet(plan, tongue)] if plan.cuts else []),
        *([padding_templates(plan, size)] if plan.job.paddings else []),
        bag_list(plan, tongue),
        assembly_sheet(plan, tongue),
        function_test(plan, tongue),
        record_sheet(plan, judged, size.name),
        hand_over(plan, judged, tongue),
    )
