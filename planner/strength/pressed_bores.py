"""What bores of a device's loaded parts take: of their load cases, and of what a cord holds at the tip."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.assembly import Claim
from planner.job import Job
from planner.mechanism import Movement, held_pins
from planner.mesh import Solid
from planner.rules import BoreForce, Forces
from planner.strength.judging.beam_share import WHAT_PRESSES, WHAT_STOPS
from planner.strength.loads.bore_forces import bore_forces
from planner.strength.loads.bore_mouths import ways_out
from planner.strength.loads.hardest_grip import hardest_grip
from planner.strength.loads.part_load import LoadCase
from planner.strength.loads.pressed_edges import Footing
from planner.strength.screened import Screened


def pressed_bores(
    job: Job,
    screens: Sequence[Screened],
    claims: Sequence[Claim],
    movement: Movement | None,
    solids: Mapping[str, Solid],
) -> Forces:
    """Return the forces on bores and printed pins, by part and bore; none where no load was put on any part.

    At the tip either the stated load is held, or the hardest grip that the hand builds up, whichever is more. The
    ``solids``, as drawn, show which end of a bore is open.
    """
    cases: dict[str, tuple[LoadCase, ...]] = {}
    for one in screens:
        cases[one.part] = (*cases.get(one.part, ()), *one.cases)
    load_n = job.use.carried_n
    if not cases or load_n is None:
        return {}
    held_n = max(load_n, hardest_grip(job, movement, load_n)[0])
    held = {} if movement is None else held_pins(job, movement.solids, movement.strung, held_n)
    footing = Footing(solids=solids, claims=claims)
    found = bore_forces(cases, claims, held, held_n, ways_out(claims, solids), footing)
    return _with_endless(found, screens, claims, load_n)


def _with_endless(found: Forces, screens: Sequence[Screened], claims: Sequence[Claim], load_n: float) -> Forces:
    """Return forces with those that nothing known bounds: on bores of links, of what grips, and on printed pins there.

    How hard they press past a dead point, or in a closed loop whose forces are not told, has no known end.
    """
    endless: dict[str, BoreForce] = {}
    for one in screens:
        if one.locks or one.untold:
            asks = WHAT_STOPS if one.locks else WHAT_PRESSES.format(one.part)
            said = one.locks or one.untold
            endless[one.part] = BoreForce(force_n=load_n, said=said, asks=asks, endless=True)
    for claim in claims:
        if claim.hardware.printed and claim.part in endless:
            endless.setdefault(claim.hardware.printed, endless[claim.part])
    return {
        part: {bore: (*forces, endless[part]) if part in endless else forces for bore, forces in bores.items()}
        for part, bores in found.items()
    }
