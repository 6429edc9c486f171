"""Left out: jobs of a ledger that a plan does not name, though plates of theirs are planned on the same printers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from planner.cli.ledger.chapter_state import ChapterState
from planner.ledger import job_and_number, shown

if TYPE_CHECKING:
    from planner.plan import Plan

WHY = "plates of it are planned in the ledger, and this plan leaves it out: name all jobs of the chapter"


def left_out(
    state: ChapterState | None, plans: Mapping[str, Plan], unread: Mapping[str, str] | None = None
) -> dict[str, str]:
    """Return by code why a plan without these jobs is none: it takes their printers as free.

    Nothing without a ledger, nor where jobs are ``unread``: they are told already, and their codes are not known.
    """
    if state is None or unread:
        return {}
    mine = {plan.job.recipient for plan in plans.values()}
    rows = [row for row in shown(state.engine, "plates", state.now.date()) if row["state"] == "planned"]
    codes = dict.fromkeys(job_and_number(row["id"])[0] for row in rows)
    return {code: WHY for code in codes if code not in mine}
