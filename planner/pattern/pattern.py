"""The pattern of one piece of padding: the side on the skin found, laid flat, judged, and a buck to form it on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.job import Job, Padding, area_mm2
from planner.mesh import Solid
from planner.pattern.buck import buck
from planner.pattern.flat import Flat, laid_flat
from planner.pattern.skin_patch import SkinPatch, is_rival, skin_patch
from planner.pose import bed_room


@dataclass(frozen=True, kw_only=True, eq=False)  # solids do not compare
class Pattern:
    """What came of one piece of padding, at size.

    Parameters
    ----------
    part, thick_mm, ease_mm
        Which part it lines, how thick it is, and how much room there is between it and the limb.
    found_by
        How its side was found, in words; empty where it was not.
    flat
        Its pattern; None where there is none, and a finding says why.
    buck
        Its form, standing on its base; None where there is none.
    no_buck
        Why there is no buck; empty where there is one, or where a plane needs none.
    bed_too_small
        Whether the job's printer has no room for the buck.
    findings
        Worst first by their own order: what was judged.
    """

    part: str
    thick_mm: float
    ease_mm: float
    found_by: str
    flat: Flat | None
    buck: Solid | None
    no_buck: str
    bed_too_small: bool
    findings: tuple[Finding, ...]


def pattern_of(job: Job, padding: Padding, solid: Solid, skin_toward: Vec3 | None, area_factor: float) -> Pattern:
    """Return the pattern of a piece of padding.

    Parameters
    ----------
    solid
        Its part at size, mirrored where the job mirrors it.
    skin_toward
        The stated direction of its side on the skin, in that solid; None where none is stated.
    area_factor
        By what areas of the drawing are multiplied at size.
    """
    if not solid.sound:
        return _without(padding, _side(padding.part, f"its mesh is not sound ({solid.faults[0]})", Verdict.HOLD))
    skin = skin_patch(solid, skin_toward)
    if skin is None:
        way = "looks along skin_toward" if skin_toward else "is hollow, as the inside of a shell is"
        return _without(padding, _side(padding.part, f"no surface of it {way}", Verdict.HOLD))
    flat = laid_flat(skin, padding.thickness_mm, job.limits.of("padding.stretch", "stretch_percent").value)
    sided = _sided(padding.part, skin, stated=job.part(padding.part).skin_side or skin_toward is not None)
    if isinstance(flat, str):
        found = Finding(
            rule="padding.flat", part=padding.part, verdict=Verdict.HOLD, why=f"There is no pattern: {flat}."
        )
        return _without(padding, sided, found, by=skin.by)
    form = (
        "" if flat.method == "plane" else buck(skin, padding.thickness_mm + padding.ease_mm, f"buck of {padding.part}")
    )
    made = form if isinstance(form, Solid) else None
    return Pattern(
        part=padding.part,
        thick_mm=padding.thickness_mm,
        ease_mm=padding.ease_mm,
        found_by=skin.by,
        flat=flat,
        buck=made,
        no_buck=form if isinstance(form, str) else "",
        bed_too_small=made is not None
        and all(
            bed_room(made.vertices_mm, (0.0, 0.0, -1.0), one.bed).most < 1.0
            for one in (job.printer, *job.more_printers)
        ),
        findings=(sided, _flat(padding, flat), _stretch(job, padding, flat), *_area(job, padding, flat, area_factor)),
    )


def _without(padding: Padding, *findings: Finding, by: str = "") -> Pattern:
    """Return what is known of padding without a pattern."""
    return Pattern(
        part=padding.part,
        thick_mm=padding.thickness_mm,
        ease_mm=padding.ease_mm,
        found_by=by,
        flat=None,
        buck=None,
        no_buck="",
        bed_too_small=False,
        findings=findings,
    )


def _side(part: str, why: str, verdict: Verdict) -> Finding:
    """Return what is judged of the side on the skin."""
    held = verdict is Verdict.HOLD
    return Finding(
        rule="padding.side",
        part=part,
        verdict=verdict,
        why=f"The side of {part} that lies on the skin: {why}.",
        remedy=f'state skin_toward, or skin_side = true for the inside of a shell, in the [[part]] table of "{part}"'
        if held
        else "",
        source="common practice, no source",
        question=f"Which way does the side of {part} that lies on the skin face, as drawn?" if held else "",
    )


def _sided(part: str, skin: SkinPatch, *, stated: bool) -> Finding:
    """Say which side was found, or that another might be meant: where nothing is stated, a bore is hollow, too."""
    if is_rival(skin):
        other = f"{100 * skin.rival_share:.0f} % of its size"
        return _side(
            part, f"{skin.by} was taken, but another has {other} and may be meant, or belong to it", Verdict.HOLD
        )
    found = f"{skin.by}, {skin.patch.area_mm2 / 100:.1f} cm²"
    if not stated:
        return _side(
            part, f"{found}, was taken, but the job does not say that a side of {part} lies there", Verdict.HOLD
        )
    return _side(part, found, Verdict.GO)


def _flat(padding: Padding, flat: Flat) -> Finding:
    """Say how it was laid flat."""
    exact = {"plane": "a plane", "cylinder": "part of a cylinder", "cone": "part of a cone"}.get(flat.method)
    how = (
        f"It is {exact}: laid flat exactly"
        if exact
        else f"It bends both ways: laid flat with the least stretch{_with_darts(flat)}, "
        f"{flat.stretch_percent:.1f} % at most; its edges differ by {flat.edge_mm:.1f} mm in all"
    )
    layer = f"in the middle of {padding.thickness_mm:g} mm"
    return Finding(
        rule="padding.flat",
        part=padding.part,
        verdict=Verdict.GO,
        why=f"{how}, {layer}; {flat.area_mm2 / 100:.1f} cm².",
        source="geometry of developable surfaces" if exact else "Liu et al. 2008, 10.1111/j.1467-8659.2008.01290.x",
    )


def _with_darts(flat: Flat) -> str:
    """Say how many darts were cut, and what they are for; empty without any."""
    if not flat.darts:
        return ""
    without = "it would lie over itself" if flat.bare_percent is None else f"{flat.bare_percent:.1f} %"
    return f" and {len(flat.darts)} darts (without them {without})"


def _stretch(job: Job, padding: Padding, flat: Flat) -> Finding:
    """Judge the largest stretch."""
    limit = job.limits.of("padding.stretch", "stretch_percent")
    fits = flat.stretch_percent <= limit.value
    closed = " and closed at its darts" if flat.darts else ""
    return Finding(
        rule="padding.stretch",
        part=padding.part,
        verdict=Verdict.GO if fits else Verdict.HOLD,
        measured=flat.stretch_percent,
        limit=limit.value,
        unit="%",
        why=f"Padding cut by the pattern{closed} is stretched or pressed together by up to "
        f"{flat.stretch_percent:.1f} %; {limit.value:g} % lies without a fold.",
        remedy="" if fits else "cut the padding in strips that follow the bend, or form it on the buck",
        source=limit.source,
        evidence=Evidence.MEASURED,
    )


def _area(job: Job, padding: Padding, flat: Flat, area_factor: float) -> Iterator[Finding]:
    """Compare with the area that the job states, where it states one."""
    stated = area_mm2(padding.rings_mm) if padding.rings_mm else padding.area_mm2
    if stated is None:
        return
    limit = job.limits.of("padding.area", "differs_percent")
    apart = 100.0 * (flat.area_mm2 / (stated * area_factor) - 1.0)
    fits = abs(apart) <= limit.value
    told = f"{stated * area_factor / 100:.1f} cm² at size by the job, {flat.area_mm2 / 100:.1f} cm² by the mesh"
    yield Finding(
        rule="padding.area",
        part=padding.part,
        verdict=Verdict.GO if fits else Verdict.HOLD,
        measured=abs(apart),
        limit=limit.value,
        unit="%",
        why=f"Padding of {padding.part}: {told} ({apart:+.0f} %; what is cut out and half the thickness count).",
        remedy="" if fits else "check area_mm2 or the outline of the padding, and skin_toward of the part",
        source=limit.source,
    )
