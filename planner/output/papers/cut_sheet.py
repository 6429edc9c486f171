"""The cut list: cord, elastic, webbing and padding, each with its length and where that comes from."""

from __future__ import annotations

from collections import defaultdict

from planner.output.papers.bags import cut_size
from planner.output.press.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.words.paper_words import percent
from planner.plan import Plan


def cut_sheet(plan: Plan) -> Sheet:
    """Return the list, and what to have at hand."""
    if not plan.cuts:
        blocks: list[Block] = [Words(text="The job names no cord, strap or padding: nothing is cut.", tone="strong")]
        return Sheet(name="cut", title="Cut list", cards=(Card(title="Cut list", blocks=tuple(blocks)),))
    rows = tuple((cut.name, str(cut.count), cut_size(cut), cut.why, BOX) for cut in plan.cuts)
    blocks = [
        Rows(
            head=("piece", "count", "cut to", "why", "cut"),
            rows=rows,
            shares=(2, 0.9, 2.6, 3.6, 0.7),
            right=(1,),
        ),
        Words(
            text=f"× {plan.scale_percent / 100:.3f} is this device's size, {percent(plan.scale_percent)}.", tone="small"
        ),
        Heading(text="Have at hand"),
        Ticks(steps=_sums(plan)),
        Heading(text="Care"),
        Ticks(
            steps=(
                "Cut cord and webbing square; seal the ends with heat, away from the part, with air moving.",
                "Cut one piece, try it on the device, then cut its twins.",
            )
        ),
        Lines(labels=("cut by (role)", "date")),
    ]
    return Sheet(name="cut", title="Cut list", cards=(Card(title="Cut list", blocks=tuple(blocks)),))


def _sums(plan: Plan) -> tuple[str, ...]:
    """Return what all pieces of a kind take together."""
    long: dict[tuple[str, float], float] = defaultdict(float)
    unknown: dict[tuple[str, float], bool] = defaultdict(bool)
    area: dict[float, float] = defaultdict(float)
    for cut in plan.cuts:
        key = (cut.kind, cut.width_mm or 0.0)
        if cut.kind == "padding":
            area[cut.width_mm or 0.0] += (cut.area_mm2 or 0.0) * cut.count
        else:
            long[key] += (cut.length_mm or 0.0) * cut.count
            unknown[key] |= cut.length_mm is None
    names = {"braided": "braided cord", "elastic": "elastic cord", "webbing": "webbing"}
    told = [
        f"{names[kind]}, {width:g} mm: {length / 1000:.2f} m" + (", and what is not known yet" if more else "")
        for (kind, width), length in long.items()
        for more in [unknown[kind, width]]
    ]
    return (*told, *(f"padding, {thick:g} mm thick: {mm2 / 100:.0f} cm²" for thick, mm2 in area.items()))
