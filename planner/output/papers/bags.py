"""Bags: what is packed together, from the graph of joints, and hardware by size."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import networkx as nx

from planner.assembly import mating_graph
from planner.job import Job
from planner.output.bench.piece_words import (
    bought,
    cut_name,
    cut_size,
    kind_words,
    line_name,
    padded_part,
    size_words,
)
from planner.output.bench.translated import findings_stay, own_head, unsigned
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Rows, Sheet, Ticks, Words
from planner.output.tongue import ENGLISH, ENGLISH_BELOW, Tongue
from planner.output.words import wording
from planner.output.words.paper_words import copies, grams, percent, with_count
from planner.plan import Plan
from planner.supplies import HardwareLine

STEPS_PERCENT = (-10.0, -5.0, 0.0, 5.0, 10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """One bag: printed parts and what joins them to the rest."""

    name: str
    parts: tuple[str, ...]
    hardware: tuple[str, ...]
    cuts: tuple[str, ...]


def base_of(job: Job) -> str:
    """Return the part that most joints touch; the one that is named first where several do."""
    graph = mating_graph(job)
    return max(job.parts, key=lambda part: graph.degree[part.name]).name


def bags_of(job: Job) -> tuple[Bag, ...]:
    """Return one bag for the base part, and one for every group of parts that hangs together without it."""
    base, graph = base_of(job), mating_graph(job)
    names = [part.name for part in job.parts]
    rest = graph.copy()
    rest.remove_node(base)
    groups = sorted(
        (set(group) for group in nx.connected_components(rest)),
        key=lambda group: min((names.index(n) for n in group if n in names), default=len(names)),
    )
    alone = {node for group in groups if not group & set(names) for node in group}
    groups = [group for group in groups if group & set(names)]
    padded = {f"padding of {padding.part}": padding.part for padding in job.paddings}
    return tuple(
        Bag(
            name=f"bag {index}",
            parts=tuple(name for name in names if name in group),
            hardware=tuple(h.name for h in job.hardware if f"hardware: {h.name}" in group),
            cuts=tuple(
                [c.name for c in job.cords if f"cord: {c.name}" in group]
                + [s.name for s in job.straps if f"strap: {s.name}" in group]
                + [name for name, part in padded.items() if part in group]
            ),
        )
        for index, group in enumerate([{base} | alone, *groups], 1)
    )


def bag_list(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the list to fill bags by, and the hardware at other sizes."""
    say = tongue.say
    blocks: list[Block] = [
        *unsigned(tongue),
        *findings_stay(tongue),
        Words(text=say("Fill one bag for each heading. Write the code and the letter on every bag.")),
    ]
    for number, bag in enumerate(bags_of(plan.job), 1):
        parts = tongue.listed(tongue.kept(part) for part in bag.parts)
        blocks += [Heading(text=say("Bag {n}: {parts}", n=str(number), parts=parts)), _bag(plan, bag, tongue)]
    missing = [line for line in plan.hardware if line.length_mm is None and "stack" in line.why]
    if missing:
        blocks += [Heading(text=say("Not known yet")), Ticks(steps=_reasons(missing, tongue))]
    cards = [Card(title=say("Bags"), blocks=tuple(blocks)), *([_by_scale(plan, tongue)] if plan.hardware else [])]
    return Sheet(name="bags", title=say("Bags and hardware"), cards=tuple(cards), head=own_head(plan, tongue))


def _reasons(lines: Iterable[HardwareLine], tongue: Tongue) -> tuple[str, ...]:
    """Return pieces with the reason for their length, in English: it is what the plan found."""
    return tuple(tongue.in_english(f"{line.name}: {line.why}.") for line in lines)


def _bag(plan: Plan, bag: Bag, tongue: Tongue) -> Rows:
    """Return what goes into one bag."""
    rows, say = list[tuple[str, ...]](), tongue.say
    for part in plan.parts:
        if part.part.name in bag.parts:
            size = tongue.amount(wording.size(part.posed.size_mm))
            count = str(part.part.count)
            rows.append((copies(part, 1, tongue), count, size, grams(part.mass_g, tongue), BOX))
    for line in plan.hardware:
        if line.printed:
            continue  # it is among the parts
        if line.name in bag.hardware or line.goes_with in bag.hardware:
            count = str(line.count)
            if line.spares_n:
                count = say("{count} + {spares} spare", count=count, spares=str(line.spares_n))
            rows.append((line_name(line, tongue), count, bought(line, tongue), "", BOX))
    for cut in plan.cuts:
        if cut.name in bag.cuts:
            name = cut_name(cut, padded_part(cut), tongue)
            rows.append((name, str(cut.count), cut_size(cut, tongue), "", BOX))
    return Rows(
        head=(say("item"), say("count"), say("size"), say("mass of one"), say("done")),
        rows=tuple(rows),
        shares=(2.8, 1.2, 3.2, 1.3, 0.8),
        right=(1, 3),
    )


def _by_scale(plan: Plan, tongue: Tongue) -> Card:
    """Return lengths of hardware at this size and at sizes beside it."""
    say, scales = tongue.say, [plan.scale_percent + step for step in STEPS_PERCENT]
    others = [plan.built_at(scale).hardware for scale in scales]
    names = dict.fromkeys(line.name for lines in (plan.hardware, *others) for line in lines if not line.printed)
    rows = []
    for name in names:
        at_sizes = [next((line for line in lines if line.name == name), None) for lines in others]
        first = next(line for lines in (plan.hardware, *others) for line in lines if line.name == name)
        counted = _counted(first, tongue)
        rows.append((counted, kind_words(first.kind, tongue), *(_at_size(line, tongue) for line in at_sizes)))
    return Card(
        title=say("Hardware by size"),
        blocks=(
            Words(
                text=say(
                    "Lengths follow the stack. Where a bore grows too wide, a larger size or a bush is taken. "
                    "The middle column is this device."
                )
            ),
            Rows(
                head=(say("hardware"), say("kind"), *(tongue.amount(percent(scale)) for scale in scales)),
                rows=((say("the device works"), "", *(_works(plan, scale, tongue) for scale in scales)), *rows),
                shares=(2.0, 1.9, 1.5, 1.5, 1.5, 1.5, 1.5),
                right=(2, 3, 4, 5, 6),
            ),
            Heading(text=say("Where each length comes from")),
            *(Words(text=reason, tone="small") for reason in _reasons(plan.hardware, tongue)),
        ),
    )


def _counted(line: HardwareLine, tongue: Tongue) -> str:
    """Return the name of a piece with its count; what stands in English below stays below."""
    name, *below = line_name(line, tongue).split(ENGLISH_BELOW)
    return ENGLISH_BELOW.join((with_count(name, line.count), *below))


def _works(plan: Plan, percent: float, tongue: Tongue) -> str:
    """Return in a word whether the device works at a size."""
    say = tongue.say
    asked = ((plan.window.go, say("yes")), (plan.window.workable, say("with work")))
    for reach, told in asked:
        if any(interval.holds(percent) for interval in reach.intervals):
            return told
    later = plan.window.workable.if_answered
    return say("not known") if any(interval.holds(percent) for interval in later) else say("no")


def _at_size(line: HardwareLine | None, tongue: Tongue) -> str:
    """Return a piece of hardware as it is built at one size; a dash where that size needs none."""
    if line is None:
        return "–"
    size = size_words(line, tongue)
    if line.length_mm is not None:
        return tongue.say("{piece} × {long}", piece=size, long=tongue.amount(f"{line.length_mm:g} mm"))
    asked = "stack_mm" in line.why or "path_mm" in line.why
    return tongue.say("{size}, measure", size=size) if asked else size
