"""The page: one offline HTML file, in the order of a route card that goes with a device through the workshop."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import jinja2

from planner.finding import Finding, Verdict, worst
from planner.fit import nearest_percent
from planner.planned import Plan, PlannedPart
from planner.report import wording
from planner.report.drawing import interval_text, plate_svg, window_chart
from planner.report.picture import picture_uri

TEMPLATES = Path(__file__).parent / "templates"
SIZE_RULES = ("size.", "mesh.unit", "mesh.sized")
PRINT_RULES = (
    "layer.",
    "line.",
    "flow.",
    "nozzle.",
    "bed.range",
    "bed.reach",
    "speed.",
    "acceleration.",
    "material.",
    "fan.",
    "wall.lines",
    "solid.",
    "contours.",
    "infill.",
    "grip.",
    "spacing.",
    "support.",
    "spool.",
)


def page(plan: Plan) -> str:
    """Return the whole report as HTML text."""
    return _render("page.html.j2", plan)


def bench_papers(plan: Plan) -> dict[str, str]:
    """Return the papers for the bench by file name: plate cards, and lists to bag, drill and cut by."""
    return {
        "plate-cards.html": _render("plate_cards.html.j2", plan),
        "lists.html": _render("lists.html.j2", plan),
    }


def _render(template: str, plan: Plan) -> str:
    """Fill a template; everything that comes from a file is escaped."""
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    functions: dict[str, Callable[..., object]] = {
        "duration": wording.duration,
        "hours": wording.hours,
        "grams": wording.grams,
        "money": wording.money,
        "moment": wording.moment,
        "size": wording.size,
        "caliper": caliper_check,
    }
    environment.filters.update(functions)
    return environment.get_template(template).render(
        plan=plan,
        job=plan.job,
        words=wording.VERDICTS,
        signs=wording.SIGNS,
        style=(TEMPLATES / "card.css").read_text(encoding="utf-8"),
        time_ratio=plan.job.printer.time_ratio,
        chart=window_chart(plan.window, plan.part_windows, plan.scale_percent),
        asked={measure.name: measure for measure in plan.measures},
        nearest=nearest_percent(plan.window.workable, plan.scale_percent),
        widenings=[(step.what, interval_text(step.interval), step.gain_percent) for step in plan.widenings],
        beds={
            plate.number: plate_svg(plate, {p.part.name: p.outline_mm for p in plan.parts}, plan.job.printer.bed)
            for plate in plan.plates
        },
        pictures={p.part.name: picture_uri(p.posed) for p in plan.parts} if template == "page.html.j2" else {},
        parts={p.part.name: p for p in plan.parts},
        stations=_stations(plan),
        work=[f for f in plan.findings if f.verdict is Verdict.GO_WITH_WORK],
        stops=[f for f in plan.findings if not f.verdict.passes],
        careful=[f for f in plan.findings if f.verdict is Verdict.GO and f.caution],
        first=next(iter(plan.findings), None),
        kinds=_kinds(plan),
        material=next(m for m in plan.job.materials if m.name == plan.material.choice),
    )


def _stations(plan: Plan) -> dict[str, Verdict]:
    """Return the verdict of every station that judges something."""

    def among(test: Callable[[Finding], bool]) -> Verdict:
        return worst(f for f in plan.findings if test(f))

    return {
        "size": among(lambda f: f.rule.startswith(SIZE_RULES)),
        "fit": among(lambda f: not f.rule.startswith((*SIZE_RULES, *PRINT_RULES))),
        "print": among(lambda f: f.rule.startswith(PRINT_RULES)),
    }


def _kinds(plan: Plan) -> list[tuple[str, float, float, float, float]]:
    """Return time and mass by kind of line over all copies: name, seconds, share, grams, share."""
    material = next(m for m in plan.job.materials if m.name == plan.material.choice)
    seconds: dict[str, float] = {}
    grams: dict[str, float] = {}
    for part in plan.parts:
        if part.estimate is None:
            continue
        for kind, value in part.estimate.kinds_s.items():
            seconds[kind] = seconds.get(kind, 0.0) + value * part.part.printed_n
        for kind, volume in part.estimate.kinds_mm3.items():
            grams[kind] = grams.get(kind, 0.0) + volume / 1000 * material.density_g_cm3.value * part.part.printed_n
    if plan.totals.duration_s:
        heating = len(plan.plates) * plan.job.printer.heat_up_s.value
        seconds["heating up"] = heating
        waiting = plan.totals.duration_s.value - sum(seconds.values())
        seconds["waiting, hops and layer changes"] = max(waiting, 0.0)
    longest, heaviest = max(seconds.values(), default=1.0), max(grams.values(), default=1.0)
    return [
        (
            kind,
            seconds[kind],
            100 * seconds[kind] / max(longest, 1e-9),
            grams.get(kind, 0.0),
            100 * grams.get(kind, 0.0) / max(heaviest, 1e-9),
        )
        for kind in sorted(seconds, key=lambda k: -seconds[k])
        if seconds[kind] > 0.5
    ]


def caliper_check(part: PlannedPart) -> str:
    """Return the one dimension to check with a caliper on a part: the longest side of its box as it lies."""
    x, y, z = part.posed.size_mm
    way, value = max((("side to side", x), ("front to back", y), ("height", z)), key=lambda pair: pair[1])
    return f"{value:.1f} mm {way}, as it was printed"
