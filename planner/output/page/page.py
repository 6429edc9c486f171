"""The page: one offline HTML file, in the order of a route card that goes with a device through the workshop."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path

from planner.finding import Finding, Verdict, worst
from planner.job import Bed, printer_named, rule_kinds
from planner.mechanism import stop_words
from planner.output.drawing.calendar_chart import calendar_days
from planner.output.drawing.device_view import device_json, part_hues, part_numbers, plate_hues
from planner.output.drawing.movement_charts import pull_curve, range_bar, travel_bar
from planner.output.drawing.part_picture import picture_uri
from planner.output.drawing.plate_svg import PlateDrawing, plate_svg
from planner.output.drawing.plate_view import plate_view
from planner.output.drawing.shapes import svg
from planner.output.drawing.split_curve import split_curve
from planner.output.drawing.window_chart import Chart, window_chart
from planner.output.json.plan_json import schedule_note
from planner.output.line_drawing.copies_standing import standing_of
from planner.output.line_drawing.device_drawing import device_drawing
from planner.output.page.bench_links import Paper, at_stations
from planner.output.page.escaped import escaping
from planner.output.page.line_kinds import kinds_of
from planner.output.page.live_rules import live_json
from planner.output.page.page_bodies import bodies_json
from planner.output.page.plate_notes import by_start, plate_notes
from planner.output.page.stations import by_station, stops, verdicts_of
from planner.output.page.terms_section import with_terms
from planner.output.paper_files.lettering.web_faces import with_letters
from planner.output.paper_files.line_breaks import UNIT, with_fixed_spaces_in
from planner.output.papers.drawn_steps import drawn_steps
from planner.output.strength_view.loaded_part import loaded_parts, unloaded_words
from planner.output.strength_view.weakest_picture import weakest_picture
from planner.output.words import wording
from planner.output.words.alike_findings import alike
from planner.output.words.date_words import ready_words, way_words
from planner.output.words.outgrown_words import NO_LIMB, outgrown_words, step_words
from planner.output.words.remedy_words import price_words
from planner.output.words.size_words import interval_words
from planner.output.words.strength_words import SCREENING, elements_words
from planner.phrases import listed, moment
from planner.plan import Plan, next_size
from planner.rules import by_severity, chosen_material, go_share, hardware_of
from planner.scale import Scale
from planner.size import nearest_percent, outgrown

ROOM = Path(__file__).parent
TEMPLATES = ROOM / "templates"
SCRIPTS = ("number.js", "live.js", "find.js", "tables.js", "cut.js", "faces.js", "loaded.js", "body.js", "device.js")
"""In this order they become one script."""


SHARE_EDGES = (0.1, 0.2, 0.4, 0.7, 1.0)
"""Where the colours of shares change, below the share up to which a part is go."""


def page(plan: Plan, papers: Sequence[Paper] = ()) -> str:
    """Return the whole report as HTML text; ``papers`` are those that lie beside it."""
    found = by_station(plan)
    fit = by_severity((*found["size"], *found["fit"]))
    verdicts = verdicts_of(found)
    way = stops(plan, verdicts, wording.VERDICTS)
    chart = window_chart(plan.window, plan.part_windows, plan.scale_percent, plan.measures)
    html = _filled(
        "page.html.j2",
        plan,
        style=_text("templates/page.css"),
        library=_text("vendored/three.min.js"),
        script="\n".join(_text(f"script/{name}") for name in SCRIPTS),
        live=_inlined(_live(plan, chart, verdicts)),
        bodies=_inlined(bodies_json(plan)),
        chart=chart,
        growing=_growing(plan),
        misfits=_misfits(plan),
        plates_by_start=by_start(plan),
        batches={plate.number: batch for plate, batch in zip(plan.plates, plan.batches, strict=True)},
        asked={measure.name: measure for measure in plan.measures},
        nearest=nearest_percent(plan.window.passes, plan.scale_percent),
        widenings=[(step.told, interval_words(step.interval), step.gain_percent) for step in plan.widenings],
        pictures={p.part.name: picture_uri(p.posed) for p in plan.parts},
        days=calendar_days(plan),
        schedule_note=schedule_note(plan),
        time_why=wording.time_why(plan.job.printer.time_ratio),
        mass_why=wording.mass_why(plan.job.printer.mass_ratio),
        stations=verdicts,
        papers_told=[paper for paper in papers if paper.says],
        papers_at=at_stations(papers, [name for _, name, *_ in way]),
        stops_of=way,
        print_findings=found["print"],
        print_decides=[f for f in found["print"] if f.verdict is not Verdict.GO],
        print_careful=_careful(found["print"]),
        fit_findings=fit,
        fit_work=[f for f in fit if f.verdict is Verdict.GO_WITH_WORK],
        stops=[f for f in fit if not f.verdict.passes],
        careful=_careful(fit),
        first=next(iter(plan.findings), None),
        kinds=kinds_of(plan),
        **_loading(plan),
        **_moving(plan),
    )
    return with_letters(with_fixed_spaces_in(with_terms(html)))


def _loading(plan: Plan) -> dict[str, object]:
    """Return what the template shows of loaded parts: their pictures, and the edges of the colours of shares."""
    loaded = loaded_parts(plan)
    go = go_share(plan.job, chosen_material(plan.job))
    top_percent = go.percent or 100.0 * plan.job.limits.strength_share.value
    return {
        "loaded": loaded,
        "loaded_none": unloaded_words(plan, loaded),
        "weakest": {one.name: weakest_picture(one) for one in loaded},
        "share_edges": [*(round(share * top_percent, 1) for share in SHARE_EDGES), 100.0],
        "share_limit": round(go.percent, 1),
        "share_left": go.left_said,
        "screening": SCREENING,
        "elements_command": elements_words("NAME"),
    }


def _moving(plan: Plan) -> dict[str, object]:
    """Return what the template shows of the device put together, of its assembly, and of movement where it moves."""
    standing = standing_of(plan)
    steps, steps_key = drawn_steps(plan, standing)
    shown: dict[str, object] = {
        "device": None,
        "device_why": standing.why,
        "steps": steps,
        "steps_key": steps_key,
        "moved": None,
    }
    view = device_json(plan, standing)
    if view is not None:
        about = f"The device put together: {listed(f'{n} {name}' for name, n in part_numbers(plan).items())}"
        shown |= {
            "device": view,
            "device_data": _inlined(view),
            "device_svg": svg(device_drawing(standing, part_hues(plan), part_numbers(plan), about)),
            "device_plates": plate_hues(plan),
            "device_missing": standing.missing,
        }
    if plan.movement is not None:
        moved = plan.movement.at(Scale(plan.scale_percent).factor)
        told = [joint for joint in moved.joints if joint.kind != "fixed" and not joint.unknown]
        shown |= {
            "moved": moved,
            "bars": {joint.name: range_bar(joint) for joint in told},
            "travels": {cord.name: travel_bar(cord) for cord in moved.cords},
            "pulls": {cord.name: pull_curve(cord) for cord in moved.cords},
        }
    return shown


def _beds(plan: Plan) -> dict[int, PlateDrawing]:
    """Return the drawing of every plate by its number."""
    rings = {part.part.name: part.outline_mm for part in plan.parts}
    held_up = {part.part.name for part in plan.parts if part.estimate and part.estimate.needs_support}
    beds, spacing_mm = _beds_of(plan), plan.job.settings.spacing_mm.value
    return {
        plate.number: plate_svg(
            plate_view(plate, rings, beds[plate.printer]), plate, spacing_mm=spacing_mm, held_up=held_up
        )
        for plate in plan.plates
    }


def _beds_of(plan: Plan) -> dict[str, Bed]:
    """Return the beds that plates lie on, by the name of their printer."""
    return {plate.printer: printer_named(plan.job, plate.printer).bed for plate in plan.plates}


def _growing(plan: Plan) -> dict[str, object]:
    """Return what the template says of when the device is outgrown."""
    step, answers = next_size(plan), outgrown(plan.job, plan.measures)
    currency = plan.cost.currency if plan.cost else ""
    return {
        "spans": [outgrown_words(one) for one in answers],
        "step": () if step is None else step_words(step, currency),
        "source": next((one.source for one in answers if one.source), ""),
        "note": NO_LIMB,
    }


def _misfits(plan: Plan) -> dict[str, Verdict]:
    """Return the lines of the bag list whose own rules do not pass at this size, each with its worst verdict."""
    factor = plan.scale_percent / 100.0
    found: dict[str, Verdict] = {}
    for line in plan.hardware:
        own = [rule.at(factor) for rule in plan.rules if hardware_of(rule) == (line.goes_with or line.name)]
        if own and not worst(own).passes:
            found[line.name] = worst(own)
    return found


def _careful(findings: Sequence[Finding]) -> list[Finding]:
    """Return the findings that pass but carry a caution."""
    return [finding for finding in findings if finding.verdict is Verdict.GO and finding.caution]


def _text(name: str) -> str:
    """Return a data file of this room."""
    return (ROOM / name).read_text(encoding="utf-8")


def _live(plan: Plan, chart: Chart, verdicts: dict[str, Verdict]) -> dict[str, object]:
    """Return what the page's script answers with, and the words it answers in."""
    return {
        **live_json(plan, chart.low_percent, chart.high_percent),
        "words": {verdict.value: words for verdict, words in wording.VERDICTS.items()},
        "signs": {verdict.value: sign for verdict, sign in wording.SIGNS.items()},
        "fixed_space": UNIT.pattern,
        "units": wording.UNITS,
        "planned_verdict": plan.verdict.value,
        "stations": {name: verdict.value for name, verdict in verdicts.items()},
        "size_rules": [name for name, kind in rule_kinds().items() if kind.station == "size"],
    }


def _inlined(data: object) -> str:
    """Return data as JSON that may stand inside a script element: no text in it can close the element."""
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def _filled(template: str, plan: Plan, **more: object) -> str:
    """Fill a template; everything that comes from a file is escaped."""
    environment = escaping(TEMPLATES)
    beds, parts = _beds(plan), {p.part.name: p for p in plan.parts}
    functions: dict[str, Callable[..., object]] = {
        "duration": wording.duration,
        "ready_words": ready_words,
        "way_words": way_words,
        "grams": wording.grams,
        "money": wording.money,
        "moment": moment,
        "size": wording.size,
        "price": price_words,
        "stop_words": stop_words,
        "svg": svg,
        "alike": alike,
        "unit": wording.unit_words,
    }
    environment.filters.update(functions)
    return environment.get_template(template).render(
        plan=plan,
        job=plan.job,
        words=wording.VERDICTS,
        signs=wording.SIGNS,
        beds=beds,
        used_beds=list(dict.fromkeys(_beds_of(plan).values())),
        notes={plate.number: plate_notes(plate, parts, beds[plate.number].nested) for plate in plan.plates},
        parts=parts,
        curves=[
            (plate, curve)
            for plate, batch in zip(plan.plates, plan.batches, strict=True)
            if (curve := split_curve(batch)) is not None
        ],
        work=[f for f in plan.findings if f.verdict is Verdict.GO_WITH_WORK],
        material=plan.material,
        **more,
    )
