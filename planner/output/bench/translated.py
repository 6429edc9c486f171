"""What every paper in another language carries: a head of its own, who translated it, and what of it stays English."""

from __future__ import annotations

from planner.output.paper_files.sheet import Block, Head, Words
from planner.output.tongue import Tongue
from planner.output.words.paper_words import head_of
from planner.plan import Plan


def own_head(plan: Plan, tongue: Tongue) -> Head | None:
    """Return the head of a paper that speaks another language than English; None where all papers share one."""
    return None if tongue.code == "en" else head_of(plan, tongue)


def unsigned(tongue: Tongue) -> list[Block]:
    """Return the line that says who translated a sheet, where no speaker has signed for it."""
    if not tongue.keeps_english:
        return []

    def said(one: Tongue) -> str:
        return one.say(
            "A machine translated this sheet, and no speaker has read it yet. Each warning also stands in English. If "
            "the two differ, follow the English."
        )

    return [Words(text=tongue.beside(said), tone="small")]


def findings_stay(tongue: Tongue) -> list[Block]:
    """Return the line that says which words of a paper come from checks, and so stay English; nothing in English."""
    if tongue.code == "en":
        return []
    return [
        Words(text=tongue.say("What the checks and the plan found stands in English, in small type."), tone="small")
    ]
