"""The cut list: cord, elastic, webbing and padding, each with its length and where that comes from."""

from __future__ import annotations

from collections import defaultdict

from planner.output.bench.piece_words import cut_name, cut_size, padded_part
from planner.output.bench.translated import findings_stay, own_head, unsigned
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.paper_words import percent
from planner.plan import Plan


def cut_sheet(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the list, and how much material it takes in all; why a piece is so long stays English."""
    say = tongue.say
    blocks: list[Block] = [*unsigned(tongue), *findings_stay(tongue)]
    if plan.cuts:
        blocks += _list(plan, tongue)
    else:
        blocks.append(Words(text=say("The job has no cord, strap or padding: nothing to cut."), tone="strong"))
    card = Card(title=say("Cut list"), blocks=tuple(blocks))
    return Sheet(name="cut", title=say("Cut list"), cards=(card,), head=own_head(plan, tongue))


def _list(plan: Plan, tongue: Tongue) -> list[Block]:
    """Return what to cut, what it takes in all, and the care that it asks for."""
    say = tongue.say
    rows = tuple(
        (
            cut_name(cut, padded_part(cut), tongue),
            str(cut.count),
            cut_size(cut, tongue),
            tongue.in_english(cut.why),
            BOX,
        )
        for cut in plan.cuts
    )
    factor = tongue.number(f"{plan.scale_percent / 100:.3f}")
    size = tongue.amount(percent(plan.scale_percent))
    return [
        Rows(
            head=(say("piece"), say("count"), say("cut to"), say("why"), say("done")),
            rows=rows,
            shares=(2, 0.9, 2.6, 3.6, 0.7),
            right=(1,),
        ),
        Words(text=say("× {factor} is for this device's size, {size}.", factor=factor, size=size), tone="small"),
        Heading(text=say("Needed in all")),
        Ticks(steps=_sums(plan, tongue)),
        Heading(text=say("Care")),
        Ticks(
            steps=(
                tongue.beside(
                    lambda t: t.say(
                        "Cut cord and webbing square. Seal the ends with heat, away from the part, in a ventilated "
                        "room."
                    )
                ),
                say("Cut one piece, try it on the device, then cut the others of its kind."),
            )
        ),
        Lines(labels=(say("cut by (role)"), say("date"))),
    ]


def _sums(plan: Plan, tongue: Tongue) -> tuple[str, ...]:
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
    say, amount = tongue.say, tongue.amount
    names = {"braided": say("braided cord"), "elastic": say("elastic cord"), "webbing": say("webbing")}
    found = []
    for (kind, width), length in long.items():
        what, wide, metres = names[kind], amount(f"{width:g} mm"), amount(f"{length / 1000:.2f} m")
        if unknown[kind, width]:
            found.append(say("{what}, {wide}: {long}, plus unknown lengths", what=what, wide=wide, long=metres))
        else:
            found.append(say("{what}, {wide}: {long}", what=what, wide=wide, long=metres))
    for thick, mm2 in area.items():
        cm2 = amount(f"{mm2 / 100:.0f} cm²")
        found.append(say("padding, {thick} thick: {area}", thick=amount(f"{thick:g} mm"), area=cm2))
    return tuple(found)
