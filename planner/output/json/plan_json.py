"""A plan as plain JSON types: the keys that other programs hold on to, versioned."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path

from planner.finding import Finding, Guess
from planner.layers import Amount
from planner.output.json.clocks_json import batch_json, clocks_json, coupon_json
from planner.output.json.headline_json import asked_json, headline_json
from planner.output.json.remedy_json import refused_json, remedies_json
from planner.packing import Plate, Run
from planner.plan import Plan, PlannedPart, next_size
from planner.pose import CostTerm
from planner.rebore import Change
from planner.remedy import Refused
from planner.rules import Checked
from planner.size import Interval, Reach, Widening, Window, nearest_percent

Json = dict[str, object]


def finding_json(finding: Finding, refused: Sequence[Refused] = ()) -> Json:
    """Return one finding, with what was tried for it where no remedy was found."""
    return {
        **asdict(finding),
        "refused": refused_json(refused),
        "verdict": finding.verdict.value,
        "evidence": finding.evidence.value,
        "at_mm": list(finding.at_mm) if finding.at_mm else None,
    }


def guesses_json(guesses: Sequence[Guess]) -> list[Json]:
    """Return the guesses."""
    return [asdict(guess) for guess in guesses]


def amount_json(amount: Amount | None) -> Json | None:
    """Return an amount with its range, or null."""
    return None if amount is None else asdict(amount)


def _ends(interval: Interval | None) -> Json:
    """Return the ends of an interval with their causes; nulls where there is none."""
    if interval is None:
        return {"low_percent": None, "high_percent": None, "low_cause": None, "high_cause": None}
    return {
        "low_percent": interval.low_percent,
        "high_percent": interval.high_percent,
        "low_cause": finding_json(interval.low_cause) if interval.low_cause else None,
        "high_cause": finding_json(interval.high_cause) if interval.high_cause else None,
    }


def _reach_json(reach: Reach) -> Json:
    """Return one reach: the nearest interval's ends, all intervals, and the causes where none is left."""
    return {
        **_ends(reach.nearest),
        "empty": not reach.intervals,
        "intervals": [_ends(interval) for interval in reach.intervals],
        "causes": [finding_json(finding) for finding in reach.causes],
        "until": [finding_json(finding) for finding in reach.until],
        "if_answered": [_ends(interval) for interval in reach.if_answered],
    }


def _window_json(window: Window) -> Json:
    """Return where a device works, and where it fits the person: null where nothing was measured."""
    return {
        "go": _reach_json(window.go),
        "workable": _reach_json(window.workable),
        "person": None if window.person is None else _reach_json(window.person),
    }


def window_json(
    window: Window,
    parts: Sequence[Window],
    scale_percent: float,
    *,
    limits: Sequence[tuple[str, Window]] = (),
    widenings: Sequence[Widening] = (),
) -> Json:
    """Return the result of ``window``; ``limits`` are the windows of single features, by their names."""
    return {
        "schema": "fitwright/window/1",
        "scale_percent": scale_percent,
        **_window_json(window),
        "nearest_percent": {
            "go": nearest_percent(window.go, scale_percent),
            "workable": nearest_percent(window.workable, scale_percent),
            "passes": nearest_percent(window.passes, scale_percent),
        },
        "parts": [{"part": part.part, "name": part.part, **_window_json(part)} for part in parts],
        "limits": [{"part": one.part, "feature": feature, **_window_json(one)} for feature, one in limits],
        "widenings": [
            {
                "what": step.what,
                "gain_percent": step.gain_percent,
                "proved": step.proved,
                "reaches": step.reaches,
                "workable": {
                    "low_percent": step.interval.low_percent,
                    "high_percent": step.interval.high_percent,
                },
            }
            for step in widenings
        ],
    }


def rebore_json(
    changes: Sequence[Change],
    files: Mapping[str, Path],
    scale_percent: float,
    checked: tuple[Checked, Checked],
    windows: tuple[Window, Window],
) -> Json:
    """Return the result of ``rebore``; check and window before and after."""
    return {
        "schema": "fitwright/rebore/1",
        "scale_percent": scale_percent,
        "verdict": checked[1].verdict.value,
        "changes": [asdict(change) for change in changes],
        "files": {name: str(path) for name, path in files.items()},
        "before": {"verdict": checked[0].verdict.value, "window": _window_json(windows[0])},
        "after": {"verdict": checked[1].verdict.value, "window": _window_json(windows[1])},
        "findings": [finding_json(finding) for finding in checked[1].findings],
    }


def plan_json(plan: Plan) -> Json:
    """Return the whole plan; null with a reason beside it where something could not be computed."""
    cost = plan.cost
    step = next_size(plan)
    return {
        "schema": "fitwright/plan/1",
        "job": plan.job.name,
        "verdict": plan.verdict.value,
        "scale_percent": plan.scale_percent,
        "scale_from": plan.scale_from,
        "checked_n": plan.checked_n,
        "features_n": plan.features_n,
        "guesses": guesses_json(plan.guesses),
        "headline": headline_json(plan.headline),
        "questions": [asked_json(question) for question in plan.questions],
        "window": window_json(plan.window, plan.part_windows, plan.scale_percent, widenings=plan.widenings),
        "measures": [asdict(measure) for measure in plan.measures],
        "outgrown": None if step is None else asdict(step),
        "plates": [
            {**_plate_json(plan, plate), **batch_json(batch)}
            for plate, batch in zip(plan.plates, plan.batches, strict=True)
        ],
        "totals": {
            "duration_s": amount_json(plan.totals.duration_s),
            "mass_g": amount_json(plan.totals.mass_g),
            "cost": amount_json(cost.device) if cost else None,
            "cost_delivered": amount_json(cost.delivered) if cost else None,
            "currency": cost.currency if cost else None,
            "withheld": plan.totals.withheld,
            "time_from": plan.job.printer.time_ratio.source if plan.job.printer.time_ratio else "+-30 % before a log",
        },
        "cost_lines": [asdict(line) for line in cost.lines] if cost else [],
        "worn_g": plan.worn_g,
        "material": {
            "choice": plan.material.name,
            "reasons": list(plan.choice.reasons),
            "rejected": [asdict(rejected) for rejected in plan.choice.rejected],
        },
        "schedule": [_run_json(run) for run in plan.runs],
        "schedule_note": schedule_note(plan),
        "coupon": coupon_json(plan.coupon),
        "parted_why": plan.parted_why,
        "clocks": clocks_json(plan.clocks),
        "hardware": [{**asdict(line), "for_parts": list(line.for_parts)} for line in plan.hardware],
        "cuts": [asdict(cut) for cut in plan.cuts],
        "cautions": [asdict(caution) for caution in plan.cautions],
        "parts": [_part_json(part) for part in plan.parts],
        "remedies": remedies_json(plan.remedies),
        "findings": [
            finding_json(finding, plan.remedies.refused_for(finding)) for finding in plan.remedies.shown(plan.findings)
        ],
    }


def schedule_note(plan: Plan) -> str:
    """Say why the schedule is empty, where it is."""
    if plan.runs:
        return ""
    if plan.job.calendar is None or plan.job.calendar.start is None:
        return "the job has no [plan] start, so no plate has a time"
    return "there is no plate"


def _plate_json(plan: Plan, plate: Plate) -> Json:
    """Return one plate."""
    return {
        "number": plate.number,
        "printer": plate.printer,
        "first_joint": plate.joint,
        "material": plate.group.material,
        "colour": plate.group.colour,
        "support": plate.group.support,
        "brim_mm": plate.group.brim_mm,
        "layer_height_mm": plate.group.layer_height_mm or plan.job.settings.layer_height_mm.value,
        "duration_s": plate.duration_s.value,
        "duration_low_s": plate.duration_s.low,
        "duration_high_s": plate.duration_s.high,
        "kinds_s": plate.kinds_s,
        "mass_g": plate.mass_g.value if plate.mass_g else None,
        "withheld": plate.withheld,
        "height_mm": plate.height_mm,
        "fill": plate.fill,
        "order": "one-after-another" if plate.in_turn else "together",
        "sequence": [f"{p.part} {p.copy}" for p in plate.placements] if plate.in_turn else [],
        "file": plate.file,
        "placements": [asdict(placement) for placement in plate.placements],
    }


def _run_json(run: Run) -> Json:
    """Return one run."""
    return {
        "plate": run.plate,
        "printer": run.printer,
        "start": run.start.isoformat() if run.start else None,
        "end": run.end.isoformat() if run.end else None,
        "reason": run.reason,
    }


def _part_json(part: PlannedPart) -> Json:
    """Return one part."""
    estimate = part.estimate
    return {
        "name": part.part.name,
        "count": part.part.count,
        "spares": part.part.spares,
        "file": part.file,
        "sha256": part.survey.sha256,
        "scale_percent": list(part.scale_percent),
        "mirrored": part.mirrored,
        "size_mm": list(part.posed.size_mm),
        "pose_down": list(part.pose.down),
        "pose_reason": part.pose.reason,
        "pose_given": part.pose.given,
        "pose_terms": _terms(part.pose.terms),
        "pose_runner_up": _runner_up(part),
        "mass_g": part.mass_g,
        "duration_s": estimate.duration_s if estimate else None,
        "layers": estimate.layers_n if estimate else None,
        "kinds_s": estimate.kinds_s if estimate else None,
        "kinds_mm3": estimate.kinds_mm3 if estimate else None,
        "support_mm3": estimate.support_mm3 if estimate else None,
        "supported_mm2": estimate.supported_mm2 if estimate else None,
        "bridge_span_mm": estimate.bridge_span_mm if estimate else None,
        "approximate": estimate.approximate if estimate else "",
    }


def _runner_up(part: PlannedPart) -> Json | None:
    """Return the next best pose and what it would cost more (or less, negative) a copy; null for a stated pose."""
    other, mine, down = part.other_way, part.estimate, part.pose.runner_up_down
    if other is None or mine is None or down is None:
        return None
    return {
        "down": list(down),
        "what": part.runner_up,
        "extra_duration_s": other.duration_s - mine.duration_s,
        "extra_mm3": other.deposited_mm3 - mine.deposited_mm3,
        "extra_support_mm3": other.support_mm3 - mine.support_mm3,
        "terms": _terms(part.pose.runner_up_terms),
    }


def _terms(terms: Sequence[CostTerm]) -> list[Json]:
    """Return the terms of a pose's cost."""
    return [{"for_it": term.for_it, "cost_min": term.cost_min, "told": term.told} for term in terms]
