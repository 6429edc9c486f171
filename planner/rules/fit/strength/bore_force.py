"""What a bore, or a printed pin, takes of a load where a lever or a cord makes that more than the stated load."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreForce:
    """One force on one bore, in newtons.

    Parameters
    ----------
    said
        What makes it, in words that end "41 N on b1, ...".
    asks
        What to state, where nobody placed the load or told what holds the part: the force is then the worst that
        nobody has ruled out, and no more than a question. Empty where it is known.
    caution
        What stays open even where so much passes.
    pull_n
        Along the bore's axis instead, in newtons, on its own with a ``force_n`` of nothing: more than 0 where it pulls
        what sits in the bore out of the part, less than 0 where it pushes that in.
    endless
        Whether nothing known bounds it, as past a dead point: nothing that bears ``force_n`` is go. ``said`` says why.
    """

    force_n: float
    said: str
    asks: str = ""
    caution: str = ""
    pull_n: float = 0.0
    endless: bool = False


Forces = Mapping[str, Mapping[str, tuple[BoreForce, ...]]]
"""By part, and then by bore; those of a printed pin by :data:`PIN`."""
PIN = "pin"


def known_force(forces: tuple[BoreForce, ...], load_n: float) -> BoreForce:
    """Return the greatest force that is known: the stated load, or what is more.

    >>> known_force((BoreForce(force_n=41.0, said="where 15 N are held at the tip"),), 15.0).force_n
    41.0
    """
    stated = BoreForce(force_n=load_n, said="")
    return max((stated, *(one for one in forces if not one.asks)), key=lambda one: one.force_n)


def feared_force(forces: tuple[BoreForce, ...], known_n: float) -> BoreForce | None:
    """Return the greatest force that nobody has ruled out; None where none is more than what is known.

    >>> feared_force((BoreForce(force_n=1.0, said="at a dead point", asks="What stops it?", endless=True),), 41.0).said
    'at a dead point'
    """
    endless = next((one for one in forces if one.endless), None)
    if endless is not None:
        return endless
    more = [one for one in forces if one.asks and one.force_n > known_n]
    return max(more, key=lambda one: one.force_n, default=None)


def known_pull(forces: tuple[BoreForce, ...]) -> BoreForce | None:
    """Return the greatest pull out of the part that is known; None where nothing is known to pull."""
    return max((one for one in forces if one.pull_n > 0.0 and not one.asks), key=_pull, default=None)


def feared_pull(forces: tuple[BoreForce, ...], known_n: float) -> BoreForce | None:
    """Return the greatest pull that nobody has ruled out; None where none is more than what is known."""
    return max((one for one in forces if one.pull_n > known_n and one.asks), key=_pull, default=None)


def _pull(one: BoreForce) -> float:
    """Return the pull, to compare."""
    return one.pull_n
