"""Every loaded part of a device under its load: which loads, and where it is weakest under them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import islice

from planner.assembly import Claim
from planner.cache import holds
from planner.finding import Vec3
from planner.job import Job, Material
from planner.mechanism import Frame, Landing, Movement, placed
from planner.mesh import Solid
from planner.rules import chosen_material
from planner.strength.beam.beam_pass import KNOTS, Weakest, weakest, weakest_key
from planner.strength.beam.beams_ahead import Asked, weakest_ahead
from planner.strength.beam.material_as_printed import BeamStuff, stuff_of
from planner.strength.every_load import EveryLoad
from planner.strength.first_look import MISSED, Look, look_ahead, share_about
from planner.strength.held.odd_loads import ABSURD_FROM_SHARE, ABSURD_PERCENT, odd_loads
from planner.strength.held.peel import Peel, faces_of, peel_of
from planner.strength.hung.hung_loads import hung_loads
from planner.strength.judging.beam_share import own_factor
from planner.strength.loads.hardest_grip import hardest_grip
from planner.strength.loads.in_the_air import loads_in_the_air
from planner.strength.loads.part_load import LoadCase
from planner.strength.loads.part_supports import supports_of
from planner.strength.loads.passed_on import loads_on_others
from planner.strength.told_by_elements import ByElements
from planner.strength.unbounded import past_dead_point, untold_parts
from planner.strength.unscreened import Unscreened
from planner.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class Screened:
    """One part under one kind of load.

    Parameters
    ----------
    known
        Whether the loads are stated or follow from the mechanism; else they are the worst that nobody has ruled out.
    case
        The load case that is worst; None where no load could be put on it.
    cases
        All of them.
    weakest
        Where it is weakest; None where that could not be told.
    elements
        What finite elements say; None where nobody asked them.
    peel
        What the faces take that it is held by, such as glued ones; None without any.
    line_mm
        Width of a printed line, over which they average.
    odd
        What cannot be meant about its loads, in words, where its share is absurd; else empty.
    locks
        Where a cord that grips with it passes a dead point, in words: nothing bounds its loads there; else empty.
    untold
        Why the pins of its closed loop may press it harder than is known, in words; empty where they may not.
    unknown, said
        Why it could not be told, and more of it in words; None where it could.
    """

    part: str
    known: bool
    stuff: BeamStuff | None = None
    material: Material | None = None
    case: LoadCase | None = None
    cases: tuple[LoadCase, ...] = ()
    weakest: Weakest | None = None
    elements: ByElements | None = None
    peel: Peel | None = None
    odd: str = ""
    locks: str = ""
    untold: str = ""
    line_mm: float = 0.0
    unknown: Unscreened | None = None
    said: str = ""


def load_of(job: Job) -> float | None:
    """Return the load that parts are screened under; None where the job states none."""
    return job.use.carried_n


def screened(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    movement: Movement | None,
    downs: Mapping[str, Vec3],
    names: Collection[str] = (),
) -> tuple[Screened, ...]:
    """Return every loaded part under its load, as drawn; nothing where the job states no load or has no material.

    Parameters
    ----------
    movement
        How the device moves: it tells what a cord does to each copy; None where nothing moves.
    downs
        The drawn direction of every part that faces the bed: layers lie across it.
    names
        Parts to judge, all where empty, each under what decides its pose: loads that are known, if there are any.
    """
    load_n = load_of(job)
    asked, away, frames = _asked(job, solids, surveys, claims, movement, downs, names)
    if load_n is None or frames is None:
        return ()
    judged = _bounded(_judged(asked, names), movement, hardest_grip(job, movement, load_n))
    landing = Landing(job=job, solids=solids, surveys=surveys, frames=frames, groups=_fast(frames, movement))
    told = (_told_more(landing, load_n, one) for one in judged)
    return (*told, *_untold(away))


def shares_about(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    movement: Movement | None,
    downs: Mapping[str, Vec3],
    names: Collection[str],
    factor: float,
) -> dict[str, float]:
    """Return which share of their strength some parts take at most at a scale, by a first look at them.

    Each is under what decides its pose, as in :func:`screened`. Left out are those that no load is known of, and those
    whose weakest cut is known already: it tells more.
    """
    asked, _, _ = _asked(job, solids, surveys, claims, movement, downs, names)
    fresh = list[tuple[str, Look]]()
    for loaded, _ in asked:
        beam, name = next(_beams(*loaded), None), loaded[4]
        if beam is not None and not holds("strength", weakest_key(*beam)):
            fresh.append((name, (*beam[:3], own_factor(job, name) or factor)))
    look_ahead(look for _, look in fresh)
    found = {name: share_about(*look) for name, look in fresh}
    return {name: MISSED * about for name, about in found.items() if about is not None}


def _asked(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    movement: Movement | None,
    downs: Mapping[str, Vec3],
    names: Collection[str],
) -> tuple[list[tuple[_Loaded, float]], Mapping[str, str], Mapping[str, Frame] | None]:
    """Return the loaded parts under their loads with their lines' width, those whose load lies in the air, and places.

    No places where the job states no load or has no material.
    """
    load_n, material = load_of(job), chosen_material(job)
    if load_n is None or material is None:
        return [], {}, None
    grip_n, gripped = hardest_grip(job, movement, load_n)
    moved = () if movement is None else movement.tip_loads(grip_n)
    at_load = {} if movement is None else movement.tips(load_n)
    # what nothing moves in has joints that pass loads, too; a printed pin that is taken of steel is no part any more
    own = {part.name: solids[part.name] for part in job.parts}
    frames = placed(job, own, surveys, claims).copies if movement is None else movement.mechanism.frames
    off, landed = loads_in_the_air(job, solids, surveys, frames, movement, surveys)
    away, wanted = ({name: off[name] for name in off if name in (names or off)}, landed & {*(names or landed)})
    held = cache(lambda copy: supports_of(job, copy, solids, surveys, claims, frames))
    every = EveryLoad(
        job=job,
        surveys=surveys,
        claims=claims,
        frames=frames,
        held=held,
        load_n=load_n,
        at_load=at_load,
        moved=moved,
        gripped=gripped,
        others=loads_on_others(job, surveys, claims, frames, held, at_load, off, load_n),
        hung=hung_loads(job, claims, frames, own, held, at_load, moved[0] if moved else {}),
    )
    asked = list[tuple[_Loaded, float]]()
    for part in filter(lambda one: one.name in wanted, job.parts):
        loads = every.on(part)
        if loads is None:
            continue
        settings = job.settings_at(job.own_height_mm(part.name))
        stuff = stuff_of(material, settings, downs[part.name])
        loaded = (solids[part.name], surveys[part.name], stuff, material, part.name, loads)
        asked.append((loaded, settings.line_width_mm.value))
    return asked, away, frames


def _bounded(judged: Sequence[Screened], movement: Movement | None, hardest: tuple[float, str]) -> list[Screened]:
    """Return parts with why what is known does not bound their loads under the hardest grip, if anything does."""
    (locks, links), untold, gripped = past_dead_point(movement), untold_parts(movement, hardest[0]), hardest[1]
    return [
        replace(
            one,
            locks=locks if one.part in links or any(case.said.startswith(gripped) for case in one.cases) else "",
            untold=untold.get(one.part, ""),
        )
        for one in judged
    ]


def _fast(frames: Mapping[str, Frame], movement: Movement | None) -> Sequence[Collection[str]]:
    """Return which copies move as one: all where nothing moves."""
    return [frozenset(frames)] if movement is None else movement.mechanism.groups


def _told_more(landing: Landing, load_n: float, one: Screened) -> Screened:
    """Return a part with what the faces take that it is held by, and what cannot be meant of an absurd load."""
    if one.stuff is None or one.case is None or one.weakest is None:
        return one
    peel = peel_of(landing.solids[one.part], one.cases, one.stuff, faces_of(landing.job, one.part))
    absurd = one.weakest.share_percent[KNOTS.index(1.0)] * ABSURD_FROM_SHARE > ABSURD_PERCENT
    return replace(one, peel=peel, odd=odd_loads(landing, one.part, one.case, load_n) if absurd else "")


_Loaded = tuple[Solid, Survey, BeamStuff, Material, str, tuple[Sequence[LoadCase], Sequence[LoadCase]]]
"""A part with its survey, material and name, and its load cases: those that are known, and those that may be."""


def _judged(asked: Sequence[tuple[_Loaded, float]], names: Collection[str]) -> tuple[Screened, ...]:
    """Return parts under their loads: of named ones what decides, known loads before those that may be."""
    kinds_n = 1 if names else None
    weakest_ahead(beam for loaded, _ in asked for beam in islice(_beams(*loaded), kinds_n))
    found = ((one, line_mm) for loaded, line_mm in asked for one in islice(_of_part(*loaded), kinds_n))
    return tuple(replace(one, line_mm=line_mm) for one, line_mm in found)


def _beams(
    solid: Solid, survey: Survey, stuff: BeamStuff, _: Material, __: str, loads: Sequence[Sequence[LoadCase]]
) -> Iterator[Asked]:
    """Yield what the beam pass is asked about a part."""
    if solid.sound:
        yield from ((solid, tuple(cases), stuff, _downs(survey)) for cases in loads if cases)


def _downs(survey: Survey) -> tuple[Vec3, ...]:
    """Return the directions that might face the bed."""
    return tuple(pose.down for pose in survey.poses)


def _untold(away: Mapping[str, str]) -> list[Screened]:
    """Return parts whose load lies on nothing, each with how far off it lies."""
    return [Screened(part=name, known=False, unknown=Unscreened.AIR, said=off) for name, off in away.items()]


def _of_part(
    solid: Solid,
    survey: Survey,
    stuff: BeamStuff,
    material: Material,
    name: str,
    loads: tuple[Sequence[LoadCase], Sequence[LoadCase]],
) -> Iterator[Screened]:
    """Yield a part under the loads that are known, and under those that nobody has ruled out."""
    told, downs = False, _downs(survey)
    for cases, is_known in zip(loads, (True, False), strict=True):
        found = weakest(solid, tuple(cases), stuff, downs) if cases and solid.sound else None
        if found is None:
            continue
        told = True
        yield Screened(
            part=name,
            known=is_known,
            stuff=stuff,
            material=material,
            case=cases[found.case_n],
            cases=tuple(cases),
            weakest=found,
        )
    if not told:
        known, guessed = loads
        why = Unscreened.UNSOUND if not solid.sound else Unscreened.UNCUT if known or guessed else Unscreened.UNHELD
        yield Screened(part=name, known=False, stuff=stuff, material=material, unknown=why)
