"""The job that re-bored meshes make: as drawn now, so that 100 % is the size just written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly import SEATS, Claim, grown, head_seats, screw_grips, sinks
from planner.finding import Vec3
from planner.job import Cord, HandWork, Hardware, Job, LeftOpen, Nut, Strap
from planner.rebore.rebore import Rebored, factors_of
from planner.rules import in_doubt, pockets_of, work_on
from planner.survey import Survey

Sizes = Mapping[tuple[str, str, str], float]
"""Size as drawn after the work, by part, feature and hardware."""


def job_after(
    job: Job,
    result: Rebored,
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    downs: Mapping[str, Vec3],
    s: float,
) -> Job:
    """Return the job that the re-bored meshes make, every opening named by its new size.

    They are written in mm: whether a part was drawn in mm is asked of its drawing, and not of how large it is now.
    """
    factors, doubted = factors_of(job, s), in_doubt(job, surveys)
    sizes = {(c.part, c.feature, c.hardware): c.after_mm for c in result.changes if c.kind != "boss"}
    gaps = tuple(
        replace(g, drawn_mm=None if g.drawn_mm is None else g.drawn_mm * factors.get(g.between[0], s)) for g in job.gaps
    )
    held = {one.screw.name for one in screw_grips(job) if not one.loose_n}
    return replace(
        job,
        parts=tuple(
            replace(
                part,
                scale_percent=None,
                sha256="",
                pose=downs[part.name],
                mesh_unit=part.mesh_unit if part.name in doubted else "mm",
            )
            for part in job.parts
        ),
        size=replace(job.size, percent=100.0, what_if=True, measures=()),
        hardware=(*_shanks(claims, sizes, held, factors), *_seats(job, surveys, sizes, factors)),
        gaps=gaps,
        left_open=(*_left_open(job, factors), *_wide_seats(surveys, claims, factors)),
        cords=tuple(cord for old in job.cords for cord in _cords(old, sizes, factors)),
        straps=tuple(strap for old in job.straps for strap in _straps(old, sizes, factors)),
        works=tuple(work for old in job.works for work in _works(job, old, result, surveys, factors)),
    )


def _works(
    job: Job, work: HandWork, result: Rebored, surveys: Mapping[str, Survey], factors: Mapping[str, float]
) -> list[HandWork]:
    """Return the work in a part's bores by the sizes that they have now, as bores may get other names.

    Where a bore was cut to size no hand works on it any more. What is done on the outside stays, at its size now.
    """
    factor = factors.get(work.part)
    if not work.on_bores or factor is None:
        return [replace(work, drawn_mm=_scaled(work.drawn_mm, factor))]
    part, survey = job.part(work.part), surveys[work.part]
    mine = [bore for bore in (*survey.bores, *survey.possible_bores) if work in work_on(job, part, bore).works]
    if not mine:  # that the part has no such bore is still told
        return [replace(work, drawn_mm=_scaled(work.drawn_mm, factor))]
    after = {c.feature: c.after_mm for c in result.changes if c.part == work.part and c.kind != "boss"}
    cut = {c.feature for c in result.changes if c.part == work.part and not c.kept and c.after_mm != c.before_mm}
    sizes = {round(after.get(bore.id, bore.drawn_diameter_mm * factor), 2) for bore in mine if bore.id not in cut}
    return [replace(work, bores=(), drawn_mm=size) for size in sorted(sizes)]


def _shanks(claims: Sequence[Claim], sizes: Sizes, held: set[str], factors: Mapping[str, float]) -> list[Hardware]:
    """Return the hardware that goes through bores: one for each part and new size, which finds its fellows.

    Pieces that need the same bore in the same part are one here, by all their names: whose each bore was is settled.
    So is what holds each: a screw that is ``held`` counts as held by a free nut, as its pocket or its pilot may be
    another part's. A printed pin is as thick as it comes out at this size.
    """
    found: dict[tuple[str, str, float, str, float], list[Claim]] = {}
    for claim in claims:
        size = sizes.get((claim.part, claim.bore.id, claim.hardware.name))
        if size is not None:
            hardware = grown(claim.hardware, factors)
            key = (claim.part, hardware.kind, hardware.diameter_mm, claim.fit, round(size, 2))
            found.setdefault(key, []).append(claim)
    shanks = []
    for alike in found.values():
        first = alike[0]
        size = sizes[first.part, first.bore.id, first.hardware.name]
        name = ", ".join(dict.fromkeys(claim.hardware.name for claim in alike))
        nut: Nut | None = "plain" if first.hardware.name in held and first.fit != "pilot" else None
        shanks.append(
            replace(
                grown(first.hardware, factors),
                name=name,
                joins=(first.part,),
                fit=first.fit,
                bore_mm=size,
                pilot_mm=None,
                other_bores=(),
                nut=nut,
            )
        )
    return shanks


def _seats(job: Job, surveys: Mapping[str, Survey], sizes: Sizes, factors: Mapping[str, float]) -> list[Hardware]:
    """Return the nuts, washers and inserts, one for each part that they sit in."""
    found = []
    for hardware in (h for h in job.hardware if h.kind in SEATS):
        for part in hardware.joins:
            pockets = pockets_of(job, hardware, surveys[part])
            after = [sizes[key] for p in pockets if (key := (part, p.id, hardware.name)) in sizes]
            drawn = min(after) if after else _scaled(hardware.bore_mm, factors.get(part))
            found.append(replace(hardware, joins=(part,), bore_mm=drawn))
    return found


def _left_open(job: Job, factors: Mapping[str, float]) -> list[LeftOpen]:
    """Return what stays open, once for each part: it grows with its part, as nothing bought goes through it."""
    return [
        replace(
            one,
            parts=(part,),
            bore_mm=_scaled(one.bore_mm, factors.get(part)),
            slot_mm=_scaled(one.slot_mm, factors.get(part)),
        )
        for one in job.left_open
        for part in one.parts
    ]


def _wide_seats(surveys: Mapping[str, Survey], claims: Sequence[Claim], factors: Mapping[str, float]) -> list[LeftOpen]:
    """Return the seats of screws' heads that are too wide now to be taken for one: nothing else goes into them."""
    found: dict[tuple[str, float], LeftOpen] = {}
    for claim in claims:
        factor, screw_mm = factors.get(claim.part), claim.hardware.diameter_mm
        if factor is None or claim.hardware.kind != "machine-screw":
            continue
        for seat in head_seats(surveys[claim.part], claim.bore, screw_mm):
            now_mm = round(seat.drawn_diameter_mm * factor, 2)
            if now_mm > seat.drawn_diameter_mm and not sinks(now_mm, screw_mm):
                name = f"seats of heads of {claim.hardware.name} in {claim.part}"
                found[claim.part, now_mm] = LeftOpen(name=name, parts=(claim.part,), bore_mm=now_mm)
    return list(found.values())


def _cords(cord: Cord, sizes: Sizes, factors: Mapping[str, float]) -> list[Cord]:
    """Return a cord once for every size that its channels have now."""
    after = sorted(
        {round(size, 3) for (part, _, name), size in sizes.items() if (part, name) == (cord.part, cord.name)}
    )
    widths: list[float | None] = [*after] or [_scaled(cord.channel_mm, factors.get(cord.part))]
    return [replace(cord, channel_mm=width) for width in widths]


def _straps(strap: Strap, sizes: Sizes, factors: Mapping[str, float]) -> list[Strap]:
    """Return a strap once for every length that its slots have now."""
    mine = {size for (part, _, name), size in sizes.items() if (part, name) == (strap.part, strap.name)}
    lengths: list[float | None] = [*sorted({round(size, 3) for size in mine})] or [
        _scaled(strap.slot_mm, factors.get(strap.part))
    ]
    return [replace(strap, slot_mm=length) for length in lengths]


def _scaled(drawn_mm: float | None, factor: float | None) -> float | None:
    """Return a drawn size at scale, None where nothing is stated."""
    return None if drawn_mm is None else drawn_mm * (1.0 if factor is None else factor)
