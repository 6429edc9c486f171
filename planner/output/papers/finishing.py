"""Post-process steps: from the bed to parts that are ready to assemble, one part after the other."""

from __future__ import annotations

from planner.output.bench.translated import own_head, unsigned
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.papers.drill_list import work_of
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.paper_words import copies, reads
from planner.plan import Plan, PlannedPart

OFF_MM = 0.5
"""A part that is off by more has the wrong scale; common practice, no source."""
HAND_WARM_C = 40.0
"""As warm as a hand likes: from about 44 °C on, skin burns with time (Moritz and Henriques 1947, from memory)."""


def finishing(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the steps, and a line for every part."""
    say = tongue.say
    skin = [p.part.name for p in plan.parts if p.part.skin_side]
    blocks: list[Block] = [
        *unsigned(tongue),
        Heading(text=say("In this order")),
        Ticks(steps=_steps(plan, skin, tongue), ordered=True),
        Heading(text=say("Each part")),
        _parts(plan, tongue),
        Words(
            text=say(
                "Tolerance {off} and order of steps: common practice, no source.", off=tongue.amount(f"{OFF_MM:g} mm")
            ),
            tone="small",
        ),
        *_forming(plan, tongue),
        Lines(labels=(say("finished by (role)"), say("date"))),
    ]
    card = Card(title=say("After printing"), blocks=tuple(blocks))
    return Sheet(name="finishing", title=say("After printing"), cards=(card,), head=own_head(plan, tongue))


def _names(names: list[str], tongue: Tongue) -> str:
    """Return names of parts as a list in words."""
    return tongue.listed(tongue.kept(name) for name in names)


def _steps(plan: Plan, skin: list[str], tongue: Tongue) -> tuple[str, ...]:
    """Return the steps that hold for this job."""
    say, beside = tongue.say, tongue.beside
    steps = [
        beside(
            lambda t: t.say(
                "Let the bed and the parts cool before you take them off. Mark every bag with code and letter."
            )
        )
    ]
    supported = [p.part.name for p in plan.parts if _supported(plan, p)]
    if supported:
        steps.append(
            beside(
                lambda t: t.say(
                    "Remove the support from {parts}. Wear eye protection: pieces fly off.", parts=_names(supported, t)
                )
            )
        )
    if plan.job.settings.brim_mm.value:
        steps.append(say("Cut off the brim flush with the edge."))
    steps.append(
        beside(
            lambda t: t.say(
                "Measure each part as in the table. If it is more than {off} off, the scale is wrong: stop.",
                off=t.amount(f"{OFF_MM:g} mm"),
            )
        )
    )
    steps.append(say("Remove strings, blobs and sharp corners with a scraper or fine file. Do not sand inside bores."))
    if work_of(plan):
        steps.append(beside(lambda t: t.say("Drill and ream only what is on the drill list.")))
    if skin:
        steps.append(
            beside(
                lambda t: t.say(
                    "On the skin side of {parts}, round every edge until a cotton ball leaves no fibre on it.",
                    parts=_names(skin, t),
                )
            )
        )
    steps.append(say("Wash off the dust with lukewarm water and a drop of soap, then let the parts dry."))
    return tuple(steps)


def _supported(plan: Plan, part: PlannedPart) -> bool:
    """Return whether a part needs support and is on a plate that prints it."""
    needs = part.estimate is not None and part.estimate.needs_support
    return needs and any(
        plate.group.support and any(p.part == part.part.name for p in plate.placements) for plate in plan.plates
    )


def _parts(plan: Plan, tongue: Tongue) -> Rows:
    """Return a line for each part: what to measure, what to take off, what to round."""
    worked, say = {one.part for one in work_of(plan)}, tongue.say
    rows = []
    for part in plan.parts:
        todo = [
            *([say("remove support")] if _supported(plan, part) else []),
            *([say("see the drill list")] if part.part.name in worked else []),
            *([say("round the skin side")] if part.part.skin_side else []),
        ]
        asked = "; ".join(todo) or say("edges only")
        rows.append((copies(part, part.part.printed_n, tongue), reads(part, tongue), "", asked, BOX))
    return Rows(
        head=(say("part"), say("caliper must read, as printed"), say("reading"), say("to do"), say("done")),
        rows=tuple(rows),
        shares=(2.6, 2.9, 1.4, 2.6, 0.8),
    )


def _forming(plan: Plan, tongue: Tongue) -> list[Block]:
    """Return why shells are not formed by heat, where there are shells; there is no recipe for it."""
    shells = [p.part.name for p in plan.parts if p.part.judged_duty == "shell"]
    soft = plan.material.softens_c.value
    if not shells or soft <= HAND_WARM_C:
        return []

    def said(one: Tongue) -> str:
        """Return the warning in one language."""
        return one.say(
            "Do not form {parts} by heat. {material} softens at {soft}: water that hot scalds at once, so does a part "
            "fresh from it, and the sizes that were checked change. Print the shape that is needed, or pad it. Never "
            "heat anything on the wearer.",
            parts=_names(shells, one),
            material=one.kept(plan.material.name),
            soft=one.amount(f"{soft:g} °C"),
        )

    return [Heading(text=tongue.say("No forming by heat")), Words(text=tongue.beside(said), tone="warning")]
