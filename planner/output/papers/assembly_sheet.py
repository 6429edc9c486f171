"""The assembly order as a paper: steps, each with the check that stops it."""

from __future__ import annotations

from planner.job import kind_of
from planner.output.bench.reach_words import reach_blocks
from planner.output.bench.translated import findings_stay, own_head, unsigned
from planner.output.drawing.shapes import Drawing
from planner.output.line_drawing.copies_standing import standing_of
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Words
from planner.output.papers.drawn_steps import DrawnGroup, drawn_steps
from planner.output.tongue import ENGLISH, Tongue
from planner.phrases import capital
from planner.plan import Plan


def assembly_sheet(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the paper; notes of the job, and what checks found, stand in English."""
    say = tongue.say
    blocks: list[Block] = [
        *unsigned(tongue),
        *findings_stay(tongue),
        Words(text=tongue.beside(_first)),
        Words(text=tongue.beside(lambda t: t.say("If a check fails, stop. Do not use force.")), tone="warning"),
    ]
    groups, key = drawn_steps(plan, standing_of(plan), tongue)
    if key:
        blocks.append(Words(text=key, tone="small"))
    turns = dict[str, tuple[int, str]]()
    for group in groups:
        blocks += [Heading(text=group.title), _steps(group, tongue)]
        turns |= {one.step.screws: (one.number, one.step.barred) for one in group.steps}
    if not groups:
        keys = tongue.kept("[[hardware]], [[joint]], [[gap]]")
        blocks.append(Words(text=say("The job names no joint: add one of {keys}.", keys=keys), tone="strong"))
    blocks += reach_blocks(plan, turns, tongue)
    loose = [f.why for f in plan.findings if kind_of(f.rule).gives == "loose groups"]
    if loose:
        told = tongue.in_english(capital(f"{loose[0]}. See the drawing."))
        blocks += [Heading(text=say("Not joined to the rest")), Words(text=told)]
    blocks.append(Lines(labels=(say("assembled by (role)"), say("date"))))
    card = Card(title=say("Assembly"), blocks=tuple(blocks))
    return Sheet(name="assembly", title=say("Assembly"), cards=(card,), head=own_head(plan, tongue))


def _first(tongue: Tongue) -> str:
    """Return what the order knows, and what it does not."""
    return tongue.say(
        "The order follows the joints in the job and, where parts are drawn in place, straight access for a driver: "
        "see the end. It does not know what a hand can reach: do a dry run first, without glue or knots."
    )


def _steps(group: DrawnGroup, tongue: Tongue) -> Rows:
    """Return the steps of a group, each with its drawing, and what must be true before the next."""
    say = tongue.say
    rows, drawings = list[tuple[str, ...]](), list[Drawing | None]()
    for one in group.steps:
        step, number = one.step, str(one.number)
        if step.covers:
            rows.append(("", say("Before no. {n}", n=number), step.covers, BOX))
            drawings.append(None)
        rows.append((number, step.what, step.stop, BOX))
        drawings.append(one.drawing)
    return Rows(
        head=(say("no."), say("step"), say("go on only if it"), say("yes")),
        rows=tuple(rows),
        shares=(0.75, 5.0, 3.6, 0.7),
        right=(0,),
        drawings=tuple(drawings) if any(drawings) else (),
    )
