"""Settings at size: what the settings rules find on the real parts, and the smallest change that mends it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from planner.finding import Finding, Verdict, worst
from planner.job import Job, Settings, printers_of, why_not
from planner.layers import PartEstimate
from planner.packing import Plate
from planner.plan.judged_per_printer import per_printer, per_printer_of_parts
from planner.plan.parts.at_size import at_size
from planner.plan.parts.estimates import Estimates
from planner.plan.prepare import Progress, no_progress
from planner.plan.stages import Prepared, Sized
from planner.rules import Change, by_severity, height_findings, lifted, resting, settings_findings, smallest_change
from planner.scale import Scale


def settings_on_plates(made: Sized, job: Job, plates: Sequence[Plate]) -> tuple[Finding, ...]:
    """Return the findings of a job's settings on sized parts, those of own layer heights after the others.

    Rules that ask a printer are asked of those that run the plates.
    """
    known = Estimates(job, made.material, made.parts)

    def there(other: Job) -> tuple[Finding, ...]:
        name = other.printer.name
        estimates, mine = known.on(name), [plate for plate in plates if (plate.printer or job.printer.name) == name]
        shared = layers_on_plates(mine, estimates)

        def ask(at: Job) -> tuple[Finding, ...]:
            return (
                *_found(settings_findings, made, at, estimates, shared),
                *_found(height_findings, made, at, estimates, shared),
            )

        facts = other, made.material.name, shared  # estimates follow from them
        return made.ready.once_for("settings on", facts, lambda: resting(other, ask))

    return per_printer(job, there(job), plates, there)


def layers_on_plates(plates: Sequence[Plate], estimates: Mapping[str, PartEstimate]) -> dict[str, tuple[float, ...]]:
    """Return the seconds of every layer of each part on its plate; of several plates, the one where it is quickest.

    All that lies on a plate is laid layer by layer: a layer takes the sum over the copies there. On a plate that
    finishes each copy before the next it takes the copy's own.
    """
    found: dict[str, tuple[float, ...]] = {}
    for plate in plates:
        laid = [estimates[placement.part] for placement in plate.placements if placement.part in estimates]
        total = [sum(layer) for layer in zip_longest(*(each.layer_s for each in laid), fillvalue=0.0)]
        for each in laid:
            own = each.layer_s if plate.in_turn else tuple(total[: len(each.layer_s)])
            found[each.part] = tuple(map(min, found[each.part], own)) if each.part in found else own
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingsJudged:
    """What the settings rules say on the real parts at size.

    Parameters
    ----------
    material
        Name of the material.
    findings
        By every printer that can run the job, worst first; an answer names its printer where they differ.
    changes, after
        The smallest change that helps, and the verdict with it; parts are not laid out anew for that.
    printers, aside
        Names of the printers that were asked, the job's own first, and why any other was left aside.
    """

    material: str
    findings: tuple[Finding, ...]
    changes: tuple[Change, ...]
    after: Verdict
    printers: tuple[str, ...]
    aside: Mapping[str, str]


def judged_settings(ready: Prepared, progress: Progress = no_progress) -> SettingsJudged:
    """Judge a job's settings on every printer that can run it."""
    made, job = at_size(ready, progress), ready.job
    reasons = {printer.name: why_not(job, made.material, printer) for printer in printers_of(job)}
    asked = {name for name, reason in reasons.items() if not reason}
    known, where = Estimates(job, made.material, made.parts), {part.name: asked for part in job.parts}

    def there(other: Job) -> tuple[Finding, ...]:
        return _found(settings_findings, made, other, known.on(other.printer.name))

    def heights(other: Job) -> tuple[Finding, ...]:
        return _found(height_findings, made, other, known.on(other.printer.name))

    def rested(ask: Callable[[Job], tuple[Finding, ...]]) -> Callable[[Job], tuple[Finding, ...]]:
        return lambda other: resting(other, ask)

    def asked_of(ask: Callable[[Job], tuple[Finding, ...]], at: Job) -> tuple[Finding, ...]:
        return by_severity(lifted(f, job.overrides) for f in per_printer_of_parts(at, ask(at), where, ask))

    def judge(settings: Settings) -> tuple[Finding, ...]:
        return asked_of(there, replace(job, settings=settings))

    findings, apart = asked_of(rested(there), job), asked_of(rested(heights), job)
    changes, after = smallest_change(job.settings, judge)  # the settings' own height moves none of those apart
    return SettingsJudged(
        material=made.material.name,
        findings=by_severity((*findings, *apart)),
        changes=changes,
        after=max(after, worst(apart), key=lambda each: each.severity),
        printers=tuple(name for name in reasons if name in asked),
        aside={name: reason for name, reason in reasons.items() if reason},
    )


Shared = Mapping[str, Sequence[float]] | None
Asking = Callable[..., tuple[Finding, ...]]


def _found(
    rules: Asking, made: Sized, job: Job, estimates: Mapping[str, PartEstimate], shared_s: Shared = None
) -> tuple[Finding, ...]:
    """Return what rules find: those on the settings' own layer height, or those on heights of parts of their own."""
    return rules(
        job,
        job.material_named(made.material.name),
        surveys=made.ready.surveys,
        estimates=estimates,
        downs=made.ready.downs,
        scale=Scale(made.percent),
        shared_s=shared_s,
    )
