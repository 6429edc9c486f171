"""The cut list: cord, elastic, webbing and padding, each with its length and where that comes from."""

from __future__ import annotations

from collections import defaultdict

from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.papers.bags import cut_size
from planner.output.words.paper_words import percent
from planner.plan import Plan


def cut_sheet(plan: Plan) -> Sheet:
    """Return the list, and how much material it takes in all."""
    if not plan.cuts:
        blocks: list[Block] = [Words(text="The job has no cord, strap or padding: nothing to cut.", tone="strong")]
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
            text=f"× {plan.scale_percent / 100:.3f} is for this device's size, {percent(plan.scale_percent)}.",
            tone="small",
        ),
        Heading(text="Needed in all"),
        Ticks(steps=_sums(plan)),
        Heading(text="Care"),
        Ticks(
            steps=(
                "Cut cord and webbing square. Seal the ends with heat, away from the part, in a ventilated room.",
                "Cut one piece, try it on the device, then cut the others of its kind.",
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
    phrase = [
        f"{names[kind]}, {width:g} mm: {length / 1000:.2f} m" + (", plus unknown lengths" if more else "")
        for (kind, width), length in long.items()
        for more in [unknown[kind, width]]
    ]
    return (*phrase, *(f"padding, {thick:g} mm thick: {mm2 / 100:.0f} cm²" for thick, mm2 in area.items()))
