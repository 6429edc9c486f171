"""Bags: what is packed together, from the graph of joints, and hardware by size."""

from __future__ import annotations

import math
from dataclasses import dataclass

import networkx as nx

from planner.assembly import mating_graph
from planner.job import Job
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Rows, Sheet, Ticks, Words
from planner.output.words import wording
from planner.output.words.paper_words import bought, percent, with_count
from planner.phrases import capital, listed
from planner.plan import Plan
from planner.supplies import Cut, HardwareLine

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


def bag_list(plan: Plan) -> Sheet:
    """Return the list to fill bags by, and the hardware at other sizes."""
    blocks: list[Block] = [Words(text="Fill one bag for each heading. Write the code and the letter on every bag.")]
    for bag in bags_of(plan.job):
        blocks += [Heading(text=f"{capital(bag.name)}: {listed(bag.parts)}"), _bag(plan, bag)]
    missing = [f"{line.name}: {line.why}" for line in plan.hardware if line.length_mm is None and "stack" in line.why]
    if missing:
        blocks += [Heading(text="Not known yet"), Ticks(steps=tuple(missing))]
    card = Card(title="Bags", blocks=tuple(blocks))
    return Sheet(name="bags", title="Bags and hardware", cards=(card, *((_by_scale(plan),) if plan.hardware else ())))


def _bag(plan: Plan, bag: Bag) -> Rows:
    """Return what goes into one bag."""
    rows = []
    for part in plan.parts:
        if part.part.name in bag.parts:
            turned = " (mirrored)" if part.mirrored else ""
            size = wording.size(part.posed.size_mm)
            rows.append((part.part.name + turned, str(part.part.count), size, wording.grams(part.mass_g), BOX))
    for line in plan.hardware:
        if line.printed:
            continue  # it is among the parts
        if line.name in bag.hardware or line.goes_with in bag.hardware:
            spare = f" + {line.spares_n} spare" if line.spares_n else ""
            rows.append((line.name, f"{line.count}{spare}", bought(line), "", BOX))
    for cut in plan.cuts:
        if cut.name in bag.cuts:
            rows.append((cut.name, str(cut.count), cut_size(cut), "", BOX))
    return Rows(
        head=("item", "count", "size", "mass of one", "in"),
        rows=tuple(rows),
        shares=(3, 0.9, 3.4, 1.3, 0.6),
        right=(1, 3),
    )


def cut_size(cut: Cut) -> str:
    """Return the size of something cut."""
    if cut.kind == "padding":
        area = f"{cut.area_mm2 / 100:.0f} cm², " if cut.area_mm2 else ""
        return f"{area}{cut.width_mm:g} mm thick"
    long = f"{cut.length_mm:.0f} mm" if cut.length_mm else "length not known"
    return f"{cut.kind} {cut.width_mm:g} mm, {long}"


def _by_scale(plan: Plan) -> Card:
    """Return lengths of hardware at this size and at sizes beside it."""
    scales = [plan.scale_percent + step for step in STEPS_PERCENT]
    others = [plan.built_at(scale).hardware for scale in scales]
    names = dict.fromkeys(line.name for lines in (plan.hardware, *others) for line in lines if not line.printed)
    rows = []
    for name in names:
        at_sizes = [next((line for line in lines if line.name == name), None) for lines in others]
        first = next(line for lines in (plan.hardware, *others) for line in lines if line.name == name)
        rows.append((with_count(name, first.count), first.kind, *(_at_size(line) for line in at_sizes)))
    reasons = tuple(f"{line.name}: {line.why}." for line in plan.hardware)
    return Card(
        title="Hardware by size",
        blocks=(
            Words(
                text="Lengths follow the stack. Where a bore grows too wide, a larger size or a bush is taken. "
                "The middle column is this device."
            ),
            Rows(
                head=("hardware", "kind", *(percent(scale) for scale in scales)),
                rows=(("the device works", "", *(_works(plan, scale) for scale in scales)), *rows),
                shares=(2.4, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5),
                right=(2, 3, 4, 5, 6),
            ),
            Heading(text="Where each length comes from"),
            *(Words(text=reason, tone="small") for reason in reasons),
        ),
    )


def _works(plan: Plan, percent: float) -> str:
    """Return in a word whether the device works at a size."""
    asked = ((plan.window.go, "yes"), (plan.window.workable, "with work"))
    for reach, told in asked:
        if any((i.low_percent or 0.0) <= percent <= (i.high_percent or math.inf) for i in reach.intervals):
            return told
    return "not known" if plan.window.workable.until else "no"


def _at_size(line: HardwareLine | None) -> str:
    """Return a piece of hardware as it is built at one size; a dash where that size needs none."""
    if line is None:
        return "–"
    if line.length_mm is not None:
        return f"{line.size} × {line.length_mm:g} mm"
    return line.size if "stack_mm" not in line.why and "path_mm" not in line.why else f"{line.size}, measure"
