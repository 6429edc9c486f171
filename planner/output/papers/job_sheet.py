"""The job sheet: what is made, for which code, at which size, on what, and who signs."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, Verdict
from planner.job import Printer
from planner.output.paper_files.sheet import BOX, Block, Card, Facts, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.words import wording
from planner.output.words.alike_findings import alike
from planner.output.words.paper_words import head_of, mirrored, percent, worn
from planner.phrases import capital, listed, moment, plural
from planner.plan import CouponFirst, Plan


def job_sheet(plan: Plan) -> Sheet:
    """Return the first paper."""
    name, meaning = wording.VERDICTS[plan.verdict]
    stops = [f for f in plan.findings if not f.verdict.passes]
    work = [f for f in plan.findings if f.verdict is Verdict.GO_WITH_WORK]
    blocks: list[Block] = [
        Words(text=f"{name}. {meaning}" + (f" {plural(len(work), 'piece')} of work." if work else ""), tone="warning"),
        *_listed("What stops it", _told_once(stops)),
        *_listed("Work", _told_once(work)),
        Facts(rows=_facts(plan)),
        Heading(text="Left and right"),
        Facts(rows=_sides(plan)),
        Heading(text="Plates, in the order to print"),
        _plates(plan),
        *_without(plan),
        *_listed("Questions that could change the answer", tuple(question.text for question in plan.questions)),
        Heading(text="Cautions"),
        *(Words(text=f"{capital(c.about)}: {c.text}", tone="small") for c in plan.cautions),
        Lines(labels=("planned by (role)", "date")),
    ]
    return Sheet(name="job-sheet", title="Job sheet", cards=(Card(title="Job sheet", blocks=tuple(blocks)),))


def _told_once(findings: Sequence[Finding]) -> tuple[str, ...]:
    """Return findings as steps, what is alike told once with where else it is so."""
    return tuple(
        f"{one.worst.part or 'job'}: {one.worst.why}; {one.worst.remedy}" + (f". {one.also}" if one.also else "")
        for one in alike(findings)
    )


def _without(plan: Plan) -> list[Block]:
    """Return a line that names the papers for which this job has no use; nothing where it needs all."""
    left = [*([] if plan.cuts else ["cut list"]), *([] if plan.job.paddings else ["padding templates"])]
    return [Words(text=f"No paper, as there is nothing to do: {listed(left)}.", tone="small")] if left else []


def _facts(plan: Plan) -> tuple[tuple[str, str, str], ...]:
    """Return the facts of the job."""
    job, totals = plan.job, plan.totals
    time = "withheld" if totals.duration_s is None else wording.hours(totals.duration_s)
    pieces = sum(p.part.printed_n for p in plan.parts)
    return (
        ("recipient", job.recipient or "no code stated", "a code, never a name"),
        ("size", percent(plan.scale_percent), plan.scale_from),
        ("printer", job.printer.name, _printer(job.printer)),
        ("material", plan.material.name, plan.choice.reasons[0]),
        ("settings", job.settings.name, _settings(plan)),
        (
            "print time",
            time,
            f"all plates, with heating up, without plate changes. {wording.time_why(job.printer.time_ratio)}",
        ),
        ("filament", wording.grams(totals.mass_g.value if totals.mass_g else None), totals.withheld or "all plates"),
        (
            "pieces",
            f"{pieces}, of {plural(len(plan.parts), 'kind')}",
            f"{plan.checked_n} of {plan.features_n} features checked",
        ),
        ("worn mass", *worn(plan)),
        *(() if job.use.kept else (("kept in", "not stated", "heat decides which material lasts"),)),
    )


def _printer(printer: Printer) -> str:
    """Return what a printer is, with its bed in mm."""
    bed = printer.bed
    plane = f"{bed.size_mm[0]:g} mm across" if bed.shape == "circle" else f"{bed.size_mm[0]:g} × {bed.size_mm[1]:g} mm"
    return f"bed {plane}, {bed.height_mm:g} mm high, nozzle {printer.nozzle_mm.value:g} mm"


def _settings(plan: Plan) -> str:
    """Return the settings in one line."""
    s, heights = plan.job.settings, [(p.name, plan.job.own_height_mm(p.name)) for p in plan.job.parts]
    return (
        f"layers {s.layer_height_mm.value:g} mm, lines {s.line_width_mm.value:g} mm, {s.contours_n} contours, "
        f"{s.infill_percent.value:g} % infill" + "".join(f"; {name}: layers {own:g} mm" for name, own in heights if own)
    )


def _sides(plan: Plan) -> tuple[tuple[str, str, str], ...]:
    """Return what is mirrored, and what is not."""
    size, (turned, plain) = plan.job.size, mirrored(plan)
    if size.side is None:
        return (("side", "not stated", "no part is mirrored: check whether any part is for one side only"),)
    drawn = size.drawn_for or "not stated"
    return (
        ("made for", f"{head_of(plan).letter}: {size.side}", f"drawn for: {drawn}"),
        ("mirrored", f"{turned} (the files are already mirrored: do not mirror them again)", ""),
        ("not mirrored", plain, ""),
    )


def _plates(plan: Plan) -> Rows:
    """Return the plates as a table to sign."""
    runs = {run.plate: run for run in plan.runs}
    rows = [_coupon(plan.coupon)] if plan.coupon else []
    for plate in plan.plates:
        run = runs.get(plate.number)
        start = "no calendar" if run is None else moment(run.start)
        rows.append(
            (
                str(plate.number),
                str(len(plate.placements)),
                plate.group.colour,
                wording.duration(plate.duration_s.value),
                wording.grams(plate.mass_g.value if plate.mass_g else None),
                start,
                BOX,
            )
        )
    return Rows(
        head=("plate", "pieces", "colour", "time", "mass", "start", "done"),
        rows=tuple(rows),
        shares=(1, 1, 2, 2, 1.5, 2.6, 1),
        right=(1, 3, 4),
    )


def _coupon(first: CouponFirst) -> tuple[str, ...]:
    """Return the row of what is printed and measured before the plates."""
    start = "no calendar" if first.start is None else moment(first.start)
    return "coupon", "1", "any", wording.duration(first.duration_s), wording.grams(first.mass_g.value), start, BOX


def _listed(title: str, steps: tuple[str, ...]) -> list[Block]:
    """Return steps under a title, or nothing where there are none."""
    return [Heading(text=title), Ticks(steps=steps)] if steps else []
