"""Post-process steps: from the bed to parts that are ready to assemble, one part after the other."""

from __future__ import annotations

from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.papers.drill_list import work_of
from planner.output.words.paper_words import PRACTICE, reads, with_count
from planner.phrases import listed
from planner.plan import Plan, PlannedPart

HAND_WARM_C = 40.0
"""As warm as a hand likes: from about 44 °C on, skin burns with time (Moritz and Henriques 1947, from memory)."""


def finishing(plan: Plan) -> Sheet:
    """Return the steps, and a line for every part."""
    skin = [p.part.name for p in plan.parts if p.part.skin_side]
    blocks: list[Block] = [
        Heading(text="In this order"),
        Ticks(steps=_steps(plan, skin), ordered=True),
        Heading(text="Each part"),
        _parts(plan),
        Words(text=f"Tolerance 0.5 mm and order of steps: {PRACTICE}.", tone="small"),
        *_forming(plan),
        Lines(labels=("finished by (role)", "date")),
    ]
    card = Card(title="After printing", blocks=tuple(blocks))
    return Sheet(name="finishing", title="After printing", cards=(card,))


def _steps(plan: Plan, skin: list[str]) -> tuple[str, ...]:
    """Return the steps that hold for this job."""
    steps = ["Let the bed and the parts cool before you take them off. Mark every bag with code and letter."]
    supported = [p.part.name for p in plan.parts if _supported(plan, p)]
    if supported:
        steps.append(f"Remove the support from {listed(supported)}. Wear eye protection: pieces fly off.")
    if plan.job.settings.brim_mm.value:
        steps.append("Cut off the brim flush with the edge.")
    steps.append("Measure each part as in the table. If it is more than 0.5 mm off, the scale is wrong: stop.")
    steps.append("Remove strings, blobs and sharp corners with a scraper or fine file. Do not sand inside bores.")
    if work_of(plan):
        steps.append("Drill and ream only what is on the drill list.")
    if skin:
        steps.append(f"On the skin side of {listed(skin)}, round every edge until a cotton ball leaves no fibre on it.")
    steps.append("Wash off the dust with lukewarm water and a drop of soap, then let the parts dry.")
    return tuple(steps)


def _supported(plan: Plan, part: PlannedPart) -> bool:
    """Return whether a part needs support and is on a plate that prints it."""
    needs = part.estimate is not None and part.estimate.needs_support
    return needs and any(
        plate.group.support and any(p.part == part.part.name for p in plate.placements) for plate in plan.plates
    )


def _parts(plan: Plan) -> Rows:
    """Return a line for each part: what to measure, what to take off, what to round."""
    worked = {one.part for one in work_of(plan)}
    rows = []
    for part in plan.parts:
        todo = [
            *(["remove support"] if _supported(plan, part) else []),
            *(["drill list"] if part.part.name in worked else []),
            *(["round the skin side"] if part.part.skin_side else []),
        ]
        rows.append(
            (
                with_count(part.part.name, part.part.printed_n) + (" (mirrored)" if part.mirrored else ""),
                reads(part),
                "",
                ", ".join(todo) or "edges only",
                BOX,
            )
        )
    return Rows(
        head=("part", "caliper must read, as printed", "reading", "to do", "done"),
        rows=tuple(rows),
        shares=(2.6, 2.9, 1.4, 2.6, 0.8),
    )


def _forming(plan: Plan) -> list[Block]:
    """Return why shells are not formed by heat, where there are shells; there is no recipe for it."""
    shells = [p.part.name for p in plan.parts if p.part.judged_duty == "shell"]
    soft = plan.material.softens_c.value
    if not shells or soft <= HAND_WARM_C:
        return []
    phrase = (
        f"Do not form {listed(shells)} by heat. {plan.material.name} softens at {soft:g} °C: water that hot scalds at "
        "once, so does a part fresh from it, and the sizes that were checked change. Print the shape that is needed, "
        "or pad it. Never heat anything on the wearer."
    )
    return [Heading(text="No forming by heat"), Words(text=phrase, tone="warning")]
