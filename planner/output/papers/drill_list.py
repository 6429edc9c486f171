"""The drill and ream list: every bore, channel or slot that needs work, with the wall that stays."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import kind_of
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.papers.where_to_drill import where_blocks
from planner.output.words.paper_words import PRACTICE, with_count
from planner.phrases import plural
from planner.plan import Plan
from planner.supplies import BenchWork

SAME_PLACE_MM = 0.01
CARE = (
    "Let the part cool. Clamp it in soft jaws; never hold it by hand.",
    "Turn the drill or reamer by hand or at low speed, in steps of 0.2 mm. Clear the chips: heat melts the bore.",
    "Wear eye protection. No gloves, loose sleeves or loose hair near a turning drill.",
    "Follow the drawn axis: a drill that wanders cuts into the wall. Measure the wall left, then tick.",
    "If a crack or a white line shows beside the bore, stop and print the part again.",
)
"""Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One piece of work on every copy of a part; ``left_mm`` None where the wall left is not known."""

    part: str
    count: int
    feature: str
    what: str
    left_mm: float | None
    limit_mm: float | None
    kind: str = ""
    """Drill, ream or bush; empty where the work is not known as data."""
    to_mm: float | None = None
    """Diameter after it."""


def work_of(plan: Plan) -> tuple[Work, ...]:
    """Return all work on openings that the check asks for, with the wall left beside a bore after it."""
    edges = {(f.part, f.feature): f for f in plan.findings if kind_of(f.rule).gives == "wall left"}
    found = []
    for one in plan.built.work:
        edge: Finding | None = edges.get((one.part, one.feature))
        left = edge.measured if edge else _beside_channel(plan, one)
        found.append(
            Work(
                part=one.part,
                count=one.count,
                feature=one.feature,
                what=one.what,
                left_mm=left,
                limit_mm=edge.limit if edge else None,
                kind=one.work.kind if one.work else "",
                to_mm=one.work.to_mm if one.work else None,
            )
        )
    return tuple(found)


def _beside_channel(plan: Plan, one: BenchWork) -> float | None:
    """Return the wall left beside a reamed channel that the survey knows as a bore: (w + d/2) s - r/2, r the ream.

    w is the wall as drawn and d the diameter as drawn; None where the channel is no bore, or scaled unevenly.
    """
    part = next((p for p in plan.parts if p.part.name == one.part), None)
    ream = one.work.to_mm if one.work and one.work.kind == "ream" else None
    if part is None or one.at_mm is None or ream is None:
        return None
    if len(set(part.scale_percent)) > 1:
        return None
    for bore in part.survey.bores:
        if bore.edge_wall_mm is not None and math.dist(bore.centre_mm, one.at_mm) < SAME_PLACE_MM:
            drawn = bore.edge_wall_mm + bore.drawn_diameter_mm / 2
            return drawn * part.scale_percent[0] / 100.0 - ream / 2
    return None


def drill_list(plan: Plan) -> Sheet:
    """Return the list, with the care that drilling asks for."""
    work = work_of(plan)
    blocks: list[Block]
    if work:
        blocks = [
            Words(text=f"{plural(len(work), 'piece')} of work. Drill or ream nothing else."),
            _table(work),
            *_least(work),
            *where_blocks(plan, [_marked(one) for one in work]),
        ]
        blocks += [Heading(text="Care"), Ticks(steps=CARE), Words(text=f"Source: {PRACTICE}.", tone="small")]
    else:
        blocks = [Words(text="Nothing needs drilling, reaming or bushing at this size.", tone="strong")]
        blocks += [Words(text="Try each screw and pin anyway. Where one binds, measure the part first.")]
    unsure = _unsure(plan)
    if unsure is not None:
        blocks += [Heading(text="May still need work"), Words(text=UNSURE), unsure]
        blocks += where_blocks(plan, [_tried(finding) for finding in _doubted(plan)], "Which bores these are")
    blocks.append(Lines(labels=("done by (role)", "date")))
    return Sheet(name="drill", title="Drill and ream", cards=(Card(title="Drill and ream", blocks=tuple(blocks)),))


def _least(work: tuple[Work, ...]) -> list[Block]:
    """Say where the least wall comes from, where one is stated."""
    if not any(one.limit_mm is not None for one in work):
        return []
    least = "Least wall: three printed lines beside a bore in a part that carries load or in a pin, two in any other."
    return [Words(text=f"{least} This is the plan's own rule (bore.edge).", tone="small")]


def _marked(one: Work) -> tuple[str, str, str]:
    """Return a piece of work as its part, its feature, and what to write beside it on the part's sketch."""
    to_mm = one.to_mm
    return one.part, one.feature, "see the list" if to_mm is None else f"{one.kind} to Ø {to_mm:.2f} mm"


def _tried(finding: Finding) -> tuple[str, str, str]:
    """Return a bore to try first as its part, its feature, and what to write beside it."""
    most = kind_of(finding.rule).must_be
    return finding.part, finding.feature, f"{finding.feature.split(' in ')[0]}, {most} Ø {finding.limit or 0.0:.2f} mm"


def _doubted(plan: Plan) -> list[Finding]:
    """Return the findings that pass, and rest on how much smaller bores print."""
    return [
        finding
        for finding in plan.findings
        if kind_of(finding.rule).must_be
        and finding.verdict is Verdict.GO
        and finding.question
        and finding.measured is not None
        and finding.limit is not None
    ]


UNSURE = "Nobody has measured how much smaller bores print on this printer, and that decides here. Try these first."


def _unsure(plan: Plan) -> Rows | None:
    """Return the bores and channels that may need work after all, those of one part for one thing in a row.

    None without any; what is on the list of work already is not told twice.
    """
    groups: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in _doubted(plan):
        groups.setdefault((finding.part, finding.feature.split(" in ")[0], finding.rule), []).append(finding)
    if not groups:
        return None
    rows = []
    for (part, thing, rule), found in groups.items():
        low, high = (round(f([one.measured or 0.0 for one in found]), 2) for f in (min, max))
        prints = f"{low:.2f} mm" if low == high else f"{low:.2f} to {high:.2f} mm"
        rows.append(
            (part, thing, str(len(found)), prints, f"{kind_of(rule).must_be} {found[0].limit or 0.0:.2f} mm", "", BOX)
        )
    return Rows(
        head=("part", "for", "bores", "expected print", "must be", "reading", "good"),
        rows=tuple(rows),
        shares=(1.7, 2.0, 0.9, 2.2, 1.8, 1.2, 0.7),
        right=(2,),
    )


def _table(work: tuple[Work, ...]) -> Rows:
    """Return the work as a table to fill in."""
    rows = tuple(
        (
            with_count(one.part or "job", one.count),
            one.feature,
            one.what,
            "not known" if one.left_mm is None else f"{one.left_mm:.2f} mm",
            "" if one.limit_mm is None else f"{one.limit_mm:.2f} mm",
            "",
            BOX,
        )
        for one in work
    )
    return Rows(
        head=("part", "where", "work", "wall left", "least", "measured", "done"),
        rows=rows,
        shares=(1.5, 2.2, 2.8, 1.2, 1.1, 1.3, 0.8),
        right=(3, 4),
    )
