"""The job sheet: what is made, for which code, at which size, on what, and who signs.

What the checks and the plan found, the reasons beside facts, and questions stay English: they are texts of theirs.
"""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, Verdict
from planner.job import Printer
from planner.output.bench.caution_words import caution_words
from planner.output.bench.translated import findings_stay, own_head, unsigned
from planner.output.paper_files.sheet import BOX, Block, Card, Facts, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words import wording
from planner.output.words.alike_findings import alike
from planner.output.words.paper_words import colour_words, grams, head_of, hours, mirrored, percent, worn
from planner.plan import CouponFirst, Plan


def job_sheet(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the first paper."""
    say = tongue.say
    stops = [f for f in plan.findings if not f.verdict.passes]
    work = [f for f in plan.findings if f.verdict is Verdict.GO_WITH_WORK]
    blocks: list[Block] = [
        *unsigned(tongue),
        *findings_stay(tongue),
        Words(text=tongue.beside(lambda t: _answer(plan.verdict, len(work), t)), tone="warning"),
        *_listed(say("What stops it"), _told_once(stops, tongue)),
        *_listed(say("Work"), _told_once(work, tongue)),
        Facts(rows=_facts(plan, tongue)),
        Heading(text=say("Left and right")),
        Facts(rows=_sides(plan, tongue)),
        Heading(text=say("Plates, in the order to print")),
        _plates(plan, tongue),
        *_without(plan, tongue),
        *_listed(
            say("Questions that could change the answer"),
            tuple(tongue.in_english(question.text) for question in plan.questions),
        ),
        Heading(text=say("Cautions")),
        *(Words(text=caution_words(c, plan.job, plan.material, tongue), tone="small") for c in plan.cautions),
        Lines(labels=(say("planned by (role)"), say("date"))),
    ]
    title = say("Job sheet")
    return Sheet(
        name="job-sheet",
        title=title,
        cards=(Card(title=title, blocks=tuple(blocks)),),
        head=own_head(plan, tongue),
    )


def _answer(verdict: Verdict, work_n: int, t: Tongue) -> str:
    """Return the verdict with its meaning, and how much work there is."""
    told = {
        Verdict.GO: t.say("Go. It can be printed and assembled as it is."),
        Verdict.GO_WITH_WORK: t.say("Go, with work. It works after the work listed here, such as drilling."),
        Verdict.HOLD: t.say("Hold. Something is missing or contradictory that could change the answer."),
        Verdict.NO_GO: t.say("No go. It cannot work at this size, on this printer, with this hardware."),
    }[verdict]
    return f"{told} {t.many('{n} place to work on.', '{n} places to work on.', work_n)}" if work_n else told


def _told_once(findings: Sequence[Finding], tongue: Tongue) -> tuple[str, ...]:
    """Return findings as steps, what is alike told once with where else it is so; the part, then English below."""
    found = []
    for one in alike(findings):
        told = f"{one.worst.why}; {one.worst.remedy}" + (f". {one.also}" if one.also else "")
        part = tongue.kept(one.worst.part) or tongue.say("job")
        found.append(f"{part}: {told}" if tongue.code == "en" else f"{part}{tongue.in_english(told)}")
    return tuple(found)


def _without(plan: Plan, tongue: Tongue) -> list[Block]:
    """Return a line that names the papers for which this job has no use; nothing where it needs all."""
    say = tongue.say
    left = [
        *([] if plan.cuts else [say("cut list")]),
        *([] if plan.job.paddings else [say("padding templates")]),
    ]
    if not left:
        return []
    none = say("No paper, as there is nothing to do: {papers}.", papers=tongue.listed(left))
    return [Words(text=none, tone="small")]


def _facts(plan: Plan, tongue: Tongue) -> tuple[tuple[str, str, str], ...]:
    """Return the facts of the job; reasons that the plan gives stay English."""
    job, totals, say, kept, english = plan.job, plan.totals, tongue.say, tongue.kept, tongue.in_english
    time = say("withheld") if totals.duration_s is None else hours(totals.duration_s, tongue)
    pieces_n = sum(p.part.printed_n for p in plan.parts)
    kinds = tongue.many("{pieces}, of {n} kind", "{pieces}, of {n} kinds", len(plan.parts), pieces=str(pieces_n))
    plates = say("all plates, with heating up, without plate changes.")
    checked = say("{n} of {count} features checked", n=str(plan.checked_n), count=str(plan.features_n))
    code = kept(job.recipient) or say("no code stated")
    return (
        (say("recipient"), code, say("a code, never a name")),
        (say("size"), tongue.amount(percent(plan.scale_percent)), english(plan.scale_from)),
        (say("printer"), kept(job.printer.name), _printer(job.printer, tongue)),
        (say("material"), kept(plan.material.name), english(plan.choice.reasons[0])),
        (say("settings"), kept(job.settings.name), _settings(plan, tongue)),
        (say("print time"), time, f"{plates} {wording.time_why(job.printer.time_ratio, tongue)}"),
        (
            say("filament"),
            grams(totals.mass_g.value if totals.mass_g else None, tongue),
            english(totals.withheld) or say("all plates"),
        ),
        (say("pieces"), kinds, checked),
        (say("worn mass"), *worn(plan, tongue)),
        *(() if job.use.kept else ((say("kept in"), say("not stated"), say("heat decides which material lasts")),)),
    )


def _printer(printer: Printer, tongue: Tongue) -> str:
    """Return what a printer is, with its bed in mm."""
    bed, say, amount = printer.bed, tongue.say, tongue.amount
    if bed.shape == "circle":
        plane = say("{mm} across", mm=amount(f"{bed.size_mm[0]:g} mm"))
    else:
        plane = amount(f"{bed.size_mm[0]:g} × {bed.size_mm[1]:g} mm")
    return say(
        "bed {plane}, {high} high, nozzle {nozzle}",
        plane=plane,
        high=amount(f"{bed.height_mm:g} mm"),
        nozzle=amount(f"{printer.nozzle_mm.value:g} mm"),
    )


def _settings(plan: Plan, tongue: Tongue) -> str:
    """Return the settings in one line."""
    s, say, amount = plan.job.settings, tongue.say, tongue.amount
    told = say(
        "layers {layer}, lines {line}, {n} contours, {infill} infill",
        layer=amount(f"{s.layer_height_mm.value:g} mm"),
        line=amount(f"{s.line_width_mm.value:g} mm"),
        n=str(s.contours_n),
        infill=amount(f"{s.infill_percent.value:g} %"),
    )
    for part in plan.job.parts:
        own_mm = plan.job.own_height_mm(part.name)
        if own_mm:
            own = say("{part}: layers {mm}", part=tongue.kept(part.name), mm=amount(f"{own_mm:g} mm"))
            told = f"{told}; {own}"
    return told


def _sides(plan: Plan, tongue: Tongue) -> tuple[tuple[str, str, str], ...]:
    """Return what is mirrored, and what is not."""
    size, say = plan.job.size, tongue.say
    if size.side is None:
        return (
            (say("side"), say("not stated"), say("no part is mirrored: check whether any part is for one side only")),
        )
    turned, plain = mirrored(plan, tongue)
    sides = {"left": say("left"), "right": say("right")}
    drawn = sides.get(str(size.drawn_for)) or say("not stated")
    files = tongue.beside(
        lambda t: t.say(
            "{parts} (the files are already mirrored: do not mirror them again)", parts=mirrored(plan, t)[0]
        )
    )
    made = f"{tongue.kept(head_of(plan).letter)}: {sides[size.side]}"
    return (
        (say("made for"), made, say("drawn for: {side}", side=drawn)),
        (say("mirrored"), files if any(p.mirrored for p in plan.parts) else turned, ""),
        (say("not mirrored"), plain, ""),
    )


def _plates(plan: Plan, tongue: Tongue) -> Rows:
    """Return the plates as a table to sign."""
    say = tongue.say
    runs = {run.plate: run for run in plan.runs}
    rows = [_coupon(plan.coupon, tongue)] if plan.coupon else []
    for plate in plan.plates:
        run = runs.get(plate.number)
        rows.append(
            (
                str(plate.number),
                str(len(plate.placements)),
                colour_words(plate.group.colour, tongue),
                tongue.amount(wording.duration(plate.duration_s.value)),
                grams(plate.mass_g.value if plate.mass_g else None, tongue),
                say("no calendar") if run is None else tongue.moment(run.start),
                BOX,
            )
        )
    return Rows(
        head=(
            say("plate"),
            say("pieces"),
            say("colour"),
            say("time"),
            say("mass"),
            say("start"),
            say("done"),
        ),
        rows=tuple(rows),
        shares=(1, 1, 2, 2, 1.5, 2.6, 1),
        right=(1, 3, 4),
    )


def _coupon(first: CouponFirst, tongue: Tongue) -> tuple[str, ...]:
    """Return the row of what is printed and measured before the plates."""
    return (
        tongue.say("coupon"),
        "1",
        colour_words("any", tongue),
        tongue.amount(wording.duration(first.duration_s)),
        grams(first.mass_g.value, tongue),
        tongue.say("no calendar") if first.start is None else tongue.moment(first.start),
        BOX,
    )


def _listed(title: str, steps: tuple[str, ...]) -> list[Block]:
    """Return steps under a title, or nothing where there are none."""
    return [Heading(text=title), Ticks(steps=steps)] if steps else []
