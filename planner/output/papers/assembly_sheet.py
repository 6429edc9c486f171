"""The assembly order as a paper: steps, each with the check that stops it."""

from __future__ import annotations

from planner.job import kind_of
from planner.output.bench.reach_words import reach_blocks
from planner.output.drawing.shapes import Drawing
from planner.output.line_drawing.copies_standing import standing_of
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Words
from planner.output.papers.drawn_steps import drawn_steps
from planner.phrases import capital
from planner.plan import Plan

SAID = (
    "The order follows the joints in the job and, where parts are drawn in place, straight access for a driver: see "
    "the end. It does not know what a hand can reach: do a dry run first, without glue or knots."
)
STOP = "If a check fails, stop. Do not use force."


def assembly_sheet(plan: Plan) -> Sheet:
    """Return the paper."""
    blocks: list[Block] = [
        Words(text=SAID),
        Words(text=STOP, tone="warning"),
    ]
    groups, key = drawn_steps(plan, standing_of(plan))
    if key:
        blocks.append(Words(text=key, tone="small"))
    turns = dict[str, tuple[int, str]]()
    for group in groups:
        rows, drawings = list[tuple[str, ...]](), list[Drawing | None]()
        for one in group.steps:
            step, number = one.step, str(one.number)
            if step.covers:
                rows.append(("", f"Before no. {number}", step.covers, BOX))
                drawings.append(None)
            rows.append((number, step.what, step.stop, BOX))
            drawings.append(one.drawing)
            turns[step.screws] = (one.number, step.barred)
        blocks += [
            Heading(text=group.title),
            Rows(
                head=("no.", "step", "go on only if it", "yes"),
                rows=tuple(rows),
                shares=(0.75, 5.0, 3.6, 0.7),
                right=(0,),
                drawings=tuple(drawings) if any(drawings) else (),
            ),
        ]
    if not groups:
        blocks.append(Words(text="The job names no joint: add [[hardware]], [[joint]] or [[gap]].", tone="strong"))
    blocks += reach_blocks(plan, turns)
    loose = [f.why for f in plan.findings if kind_of(f.rule).gives == "loose groups"]
    if loose:
        blocks += [Heading(text="Not joined to the rest"), Words(text=capital(f"{loose[0]}. See the drawing."))]
    blocks.append(Lines(labels=("assembled by (role)", "date")))
    card = Card(title="Assembly", blocks=tuple(blocks))
    return Sheet(name="assembly", title="Assembly", cards=(card,))
