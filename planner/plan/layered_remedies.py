"""Remedies of what only the layers tell: the settings rules asked again on the layers of the parts concerned."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.job import Job, kind_of
from planner.layers import PartEstimate
from planner.packing import Plate
from planner.plan.changed_job import stands
from planner.plan.parts.planned_parts import estimated_anew
from planner.plan.settings_at_size import layers_on_plates
from planner.plan.stages import Sized
from planner.remedy import Again, Refused, Remedies, Stand, remedies_of, spoiled, told
from planner.rules import height_findings, lifted, settings_findings
from planner.scale import Scale


def layered_remedies(sized: Sized, plates: Sequence[Plate], findings: Sequence[Finding], known: Remedies) -> Remedies:
    """Return the remedies of a plan: those that are known without layers, and those of findings that need them.

    ``findings`` are those of the plan; what hangs on an answer, and what is proved or refused already, is left alone.
    """
    done = {one for remedy in known.found for one in remedy.settles} | {one for one, _ in known.unsettled}
    left = [f for f in findings if _asked(f) and told(f) not in done]
    if not left:
        return known
    name = sized.ready.job.printer.name
    own = tuple(plate for plate in plates if (plate.printer or name) == name)
    key = repr((sorted(map(told, left)), [[each.part for each in plate.placements] for plate in own]))
    more = sized.ready.once(f"remedies on layers {key}", lambda: _found(sized, own, left))
    return known.joined(more)


def _found(sized: Sized, own: tuple[Plate, ...], left: Sequence[Finding]) -> Remedies:
    """Return the remedies of what is left, on the plates of the job's own printer."""
    job = sized.ready.job
    layers = _Layers(sized=sized, plates=own, concerned=frozenset(finding.part for finding in left))
    here, again = stands(sized.ready)
    more = layers.said(job, here.downs)
    now = replace(here, more=more, on_layers=layers.of_settings(here.downs), memo={})
    remedies = remedies_of(now, layers.again(here, again), {told(f) for f in left})
    spoken = {told(finding) for finding in more}
    elsewhere = Refused(
        kind="settings", text="other settings", why="its plates run on another printer: ask with --printer"
    )
    apart = tuple((told(f), (elsewhere,)) for f in left if told(f) not in spoken)
    return replace(remedies, unsettled=(*remedies.unsettled, *apart))


def _asked(finding: Finding) -> bool:
    """Return whether a remedy is looked for: for a settings rule that does not go, and that no guess decides."""
    kind = kind_of(finding.rule)
    sure = not finding.question_id and finding.evidence is not Evidence.GUESSED
    return kind.family == "settings" and bool(kind.cures) and sure and finding.verdict is not Verdict.GO


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layers:
    """The layers of sized parts on their plates, those of parts concerned laid again where a change alters them.

    ``concerned`` are their names, empty for what speaks of the whole job.
    """

    sized: Sized
    plates: tuple[Plate, ...]
    concerned: frozenset[str]
    known: dict[str, Mapping[str, PartEstimate]] = field(default_factory=dict)

    def again(self, here: Stand, again: Again) -> Again:
        """Return what judges a changed job with its layers, unless it spoils what needs none."""

        def on_layers(job: Job, *, posed: bool = True, strong: bool = True, asked: bool = True) -> Stand:
            after = again(job, posed=posed, strong=strong, asked=asked)
            if spoiled(here, after):
                return after
            return replace(after, more=self.said(job, after.downs), memo={})

        return on_layers

    def of_settings(self, downs: Mapping[str, Vec3]) -> Callable[[Job], tuple[Finding, ...]]:
        """Return what asks a job with other settings on the layers as they are: what is found is proved on new ones."""
        return lambda job: self._findings(job, self.sized.estimates, downs)

    def said(self, job: Job, downs: Mapping[str, Vec3]) -> tuple[Finding, ...]:
        """Return what the layers of a changed job tell."""
        return self._findings(job, self._estimates(job, downs), downs)

    def _findings(
        self, job: Job, estimates: Mapping[str, PartEstimate], downs: Mapping[str, Vec3]
    ) -> tuple[Finding, ...]:
        """Ask the settings rules on some layers, and keep what those about the parts concerned say."""
        found = [
            finding
            for ask in (settings_findings, height_findings)
            for finding in ask(
                job,
                job.material_named((job.material or self.sized.material).name),
                surveys=self.sized.ready.surveys,
                estimates=estimates,
                downs=downs,
                scale=Scale(self.sized.percent),
                shared_s=layers_on_plates(self.plates, estimates),
            )
        ]
        return tuple(
            lifted(f, job.overrides)
            for f in found
            if "layers" in kind_of(f.rule).asks and (not f.part or f.part in self.concerned)
        )

    def _estimates(self, job: Job, downs: Mapping[str, Vec3]) -> Mapping[str, PartEstimate]:
        """Return the estimates of all parts, those of parts concerned that a change alters made anew."""
        ready, material = self.sized.ready, self.sized.material
        was = ready.job
        changed = [
            part
            for part in self.sized.parts
            if part.part.name in self.concerned
            and part.estimate is not None
            and (_laid(job, part.part.name), downs[part.part.name])
            != (_laid(was, part.part.name), ready.downs[part.part.name])
        ]
        if not changed:
            return self.sized.estimates
        key = repr([(p.part.name, downs[p.part.name], _laid(job, p.part.name)) for p in changed])
        if key not in self.known:
            there = replace(ready, job=job)
            self.known[key] = estimated_anew(there, changed, downs, job.material or material)
        return {**self.sized.estimates, **self.known[key]}


def _laid(job: Job, part: str) -> tuple[object, ...]:
    """Return what the layers of a part hang on, beside its mesh, size and pose."""
    return job.settings_at(job.own_height_mm(part)), job.printer, job.material
