"""Doubts about what is drawn between faces of another part: a tenon, a tongue or a lever moves, or stays fixed."""

from __future__ import annotations

from collections.abc import Sequence

from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.pegs.close_faces import CloseFit
from planner.assembly.pegs.pegs_in_bores import stated_joint
from planner.job import Edit, Job, Joint, JointKind

ASKED_SHARE = 25
"""So many percent of all questions ask this, the tightest first."""
MOVES_SHARE, SLOPED_SHARE = 0.4, 0.6
"""How often such a part moves there, and how often one in a dovetail, or with hardware through both, does; common
practice, no source."""
PIVOT_SHARE = 0.85
"""How often it turns where a pin through both turns in one of them by its form; common practice, no source."""


def between_id(one: str, other: str) -> str:
    """Return the id of the question about two parts, in either order.

    >>> between_id("grip", "arm")
    'between-arm-grip'
    """
    return "between-" + "-".join(sorted((one, other)))


def between_question(inner: str, outer: str) -> str:
    """Return the question about a part between faces of another."""
    return f"Does {inner} move between the faces of {outer} that it is drawn in, or is it fixed there?"


def joint_between(job: Job, one: str, other: str) -> JointKind | None:
    """Return how two parts are said to meet: by their joint, or as what turns about a pin that goes through both."""
    stated = stated_joint(job, one, other)
    turning = any(
        piece.turns and "fit" not in piece.guessed and {one, other} <= set(piece.joins) for piece in job.hardware
    )
    return stated or ("turns" if turning else None)


def between_doubts(job: Job, close: Sequence[CloseFit], most: int) -> list[Doubt]:
    """Return one question for two parts that nobody has stated a joint or a gap of, at most a share of ``most``."""
    spoken = {frozenset(gap.between) for gap in job.gaps}
    pairs: dict[frozenset[str], list[CloseFit]] = {}
    for fit in sorted(close, key=lambda fit: fit.room_mm):
        pair = frozenset((fit.inner, fit.outer))
        if pair not in spoken and joint_between(job, fit.inner, fit.outer) is None:
            pairs.setdefault(pair, []).append(fit)
    asked = [fits[0] for fits in list(pairs.values())[: max(1, most * ASKED_SHARE // 100)]]
    return [_doubt(fit, pivots=_pivots(job, fit), pinned=_pinned(job, fit)) for fit in asked]


def _pivots(job: Job, fit: CloseFit) -> bool:
    """Return whether hardware that turns by its form goes through both parts, though nobody has said that it does."""
    return any(piece.turns and {fit.inner, fit.outer} <= set(piece.joins) for piece in job.hardware)


def _pinned(job: Job, fit: CloseFit) -> bool:
    """Return whether hardware goes through both parts by what is known or guessed: what moves there turns."""
    return any({fit.inner, fit.outer} <= set(piece.joins) for piece in job.hardware)


def _doubt(fit: CloseFit, *, pivots: bool, pinned: bool) -> Doubt:
    """Return the question about two parts: the second of the joint moves in the first, or turns about their pin."""
    moves = PIVOT_SHARE if pivots else SLOPED_SHARE if fit.sloped or pinned else MOVES_SHARE
    how_moves: JointKind = "turns" if pivots or pinned else "slides"
    said: list[tuple[str, JointKind, str, float]] = [
        ("fixed", "pressed", f"{fit.inner} stays fixed in {fit.outer}", round(1.0 - moves, 2)),
        ("moves", how_moves, f"{fit.inner} moves in {fit.outer}", moves),
    ]
    options = tuple(
        Option(name=name, text=text, edits=_stated(fit, how, text, share), share=share)
        for name, how, text, share in sorted(said, key=lambda one: -one[3])
    )
    return Doubt(
        id=between_id(fit.inner, fit.outer),
        text=between_question(fit.inner, fit.outer),
        options=options,
        default=options[0].name,
        features=((fit.inner, f"in {fit.outer}"),),
        by_rule=True,
    )


def _stated(fit: CloseFit, how: JointKind, text: str, share: float) -> tuple[Edit, ...]:
    """Return the edits that state the joint."""
    joint = Joint(between=(fit.outer, fit.inner), how=how)
    return Answer(name=how, text=text, weight_factor=share, joints=(joint,)).edits
