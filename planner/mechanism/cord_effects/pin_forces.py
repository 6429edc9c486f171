"""The forces on the pins that a cord turns and on its own stops, where its pull for the wanted grip is at its most."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.job import part_of
from planner.mechanism.cord.vectors import times
from planner.mechanism.cord_effects.pull_of_one_table import Pulled
from planner.mechanism.force.friction import Friction
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.point_load import resultant_n
from planner.mechanism.force.pull_range import PullRange
from planner.mechanism.movement.move_records import PinForce


def pin_forces(
    pulled: Sequence[Pulled], pulls: Sequence[PullRange], grip_n: float, friction: Friction
) -> list[PinForce]:
    """Return the forces on the pin of every joint of the hardest finger, and on every stop of its cord.

    Its hardest joint sets the pull, and the place of the range: the pins of the easier ones take that pull, too.
    """
    hardest = max(range(len(pulls)), key=lambda n: pulls[n].most_n[2])
    first, over = pulled[hardest], pulls[hardest].high_n
    pull_n = max(over)
    k = over.index(pull_n)
    chain = [first, *(one for one in pulled if one.way is first.way and one is not first)]
    found = [force for one in chain for force in _pins(one, k, pull_n, grip_n, friction)]
    return [*dict.fromkeys(found), *_stops(first, k, pull_n, friction)]


def _pins(one: Pulled, k: int, pull_n: float, grip_n: float, friction: Friction) -> Iterator[PinForce]:
    """Yield the forces on a joint's pin, or on those of its loop, at a place of the range."""
    balance = one.joint.balance(k, friction, weighs=True)
    if isinstance(balance, LoopBalance):
        carried = balance.pin_forces_n(pull_n, grip_n, friction.pin_ratio)
        pins = zip(balance.bearings, carried, strict=True)
        yield from (PinForce(hardware=each.pin, part=each.part, force_n=force) for each, force in pins if each.pin)
    elif one.leg.joint.pin:
        force = balance.pin_force_n(pull_n, grip_n)
        yield PinForce(hardware=one.leg.joint.pin, part=part_of(one.leg.joint.parts[1]), force_n=force)


def _stops(one: Pulled, k: int, pull_n: float, friction: Friction) -> Iterator[PinForce]:
    """Yield the force on every stop of a cord."""
    contacts = one.joint.pull.run.cords[k].contacts
    ends = [contact.number for contact in contacts for way in (contact.back, contact.ahead) if way is not None]
    loads = list(zip(ends, one.joint.pull_loads(k, friction), strict=True))
    for number, stop in enumerate(one.way.stops):
        force = resultant_n([load for end, load in loads if end == number], {stop.copy})
        if any(force):
            told = f"{one.way.cord.name} at {stop.said}"
            yield PinForce(hardware=told, part=part_of(stop.copy), force_n=times(force, pull_n))
