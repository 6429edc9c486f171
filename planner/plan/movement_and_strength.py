"""How a prepared device moves and where its loaded parts are weakest, with the rules that judge both."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from planner.assembly import claims_of
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job
from planner.mechanism import Movement, move_rules, movement_of, unmoved_rules
from planner.mesh import Solid
from planner.phrases import listed
from planner.plan.stages import Prepared
from planner.rules import Rule, constants, in_doubt
from planner.size import Sizing
from planner.strength import LOADED, Screened, Unscreened, load_of, strength_rules, unscreened, with_elements
from planner.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class Moves:
    """How a device moves, None where nothing does; the job as known, and its size.

    The rules judge it at that size: at the drawn one they know no other.
    """

    job: Job
    sizing: Sizing
    movement: Movement | None
    rules: tuple[Rule, ...]


def movement(ready: Prepared) -> tuple[Movement | None, tuple[Rule, ...]]:
    """Return how a device moves, and the rules that judge it; None where nothing moves."""
    return told_moves(ready.job, ready.surveys, ready.movement, ready.moves)


def told_moves(
    job: Job, surveys: Mapping[str, Survey], moving: Movement | None, moves: tuple[Rule, ...], *, drawn: bool = False
) -> tuple[Movement | None, tuple[Rule, ...]]:
    """Return how a device moves and the rules that judge it where somebody asks; None where its size is not known.

    ``drawn``: the rules are asked at the drawn size alone.
    """
    if open_ones := in_doubt(job, surveys):
        return None, (*moves, *constants([_unit_open(job, sorted(open_ones))]))
    if moving is None:
        return None, moves
    return moving, moves or move_rules(job, moving, drawn=drawn)


def strengths(ready: Prepared, factor: float, by_elements: Container[str] = ()) -> list[tuple[Screened, Finding]]:
    """Return every loaded part with what its rule says at a scale; a hold for each where no load is stated.

    Parts of ``by_elements`` are solved by finite elements, unless that is kept.
    """
    if ready.screens or load_of(ready.job) is not None:
        screens = with_elements(
            ready.job, ready.screens, ready.solids, ready.surveys, factor, ask=by_elements, before=ready.screens
        )
        return [(one, rule.at(factor)) for one, rule in zip(screens, strength_rules(ready.job, screens), strict=True)]
    why = Unscreened.NO_LOAD
    loaded = [part.name for part in ready.job.parts if part.judged_duty in LOADED]
    return [(Screened(part=name, known=False, unknown=why), unscreened(name, why)) for name in loaded]


def _unit_open(job: Job, names: Sequence[str]) -> Finding:
    """Hold the movement of parts whose size is not known; where the job states a unit, each of them is doubted."""
    alone = f"state mesh_unit in the [[part]] of {listed(names)}"
    return Finding(
        rule="move.range",
        part=names[0],
        feature="joints",
        verdict=Verdict.HOLD,
        why=f"the unit of {listed(names)} is open, so nothing is known about how they move",
        remedy=alone if job.mesh_unit is not None else "state [job] mesh_unit, or the unit of each [[part]]",
        source="mesh file",
        question="In which unit are the meshes drawn?",
    )


def moves_of(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    before: Movement | None = None,
) -> tuple[Movement | None, tuple[Rule, ...]]:
    """Return how a device moves, and the rules of that where its job speaks of it.

    A folder of meshes is asked for its movement only by ``move``. ``before`` is how the same meshes move in the job
    that was changed: what the change does not touch is taken over from it.
    """
    if before is None:
        moving = movement_of(job, solids, surveys, claims_of(job, surveys).claims, downs)
    else:
        moving = before.after(job, downs)
    return moving, moves_rules(job, moving)


def moves_rules(job: Job, moving: Movement | None, *, drawn: bool = False) -> tuple[Rule, ...]:
    """Return the rules of a movement that its job speaks of; ``drawn``: they are asked at the drawn size alone."""
    if moving is None:
        return unmoved_rules(job)
    spoken_of = any(cord.pulls for cord in job.cords) or any(joint.needs_deg for joint in job.joints)
    return move_rules(job, moving, drawn=drawn) if spoken_of else ()
