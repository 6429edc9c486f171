"""Doubts about duties: what parts of one form do, asked once for all of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.doubts.duty_form import Role, role_of
from planner.job import Duty, Edit, Job, Part
from planner.phrases import listed
from planner.survey import Survey

CLAUSES: Mapping[Duty, tuple[str, str]] = {
    "load": ("carries load", "carry load"),
    "shell": ("is a shell that carries little", "are shells that carry little"),
    "cover": ("only covers", "only cover"),
    "pin": ("works as a pin or an axle", "work as pins or axles"),
    "soft": ("is a soft pad or grip", "are soft pads or grips"),
}
"""What an answer says of one part, and of several, after their name."""
NAMED_MOST = 2
"""So many parts are named in a clause; more are called by what they are."""
LEAST_SHARE = 0.04
"""Less likely duties are not offered, but one that carries nothing is: else thin walls would be no-go by a guess."""
PLAIN: tuple[Duty, ...] = ("cover", "shell", "soft")
KINDS: Mapping[Duty, str] = {"load": "bodies", "shell": "shells", "cover": "covers", "pin": "pins", "soft": "soft"}


CALLED: Mapping[str, str] = {name: name for name in ("plates", "bodies", "shells", "covers", "pins")} | {
    "soft": "soft parts"
}
"""What parts of one kind are called in a clause."""


def duty_doubts(job: Job, surveys: Mapping[str, Survey], most: int) -> list[Doubt]:
    """Return one doubt for all parts of one kind whose duty nobody stated; the rarest kinds together."""
    kinds: dict[str, list[tuple[Part, Role]]] = defaultdict(list)
    for part in job.parts:
        if not part.duty_stated:
            role = role_of(part.name, surveys[part.name])
            now = part.duty or role.duty
            plate = role.form == "plate" and now == "load"
            kinds["plates" if plate else KINDS[now]].append((part, role))
    if len(kinds) <= most:
        return [_doubt(kind, members) for kind, members in kinds.items()]
    ordered = sorted(kinds, key=lambda kind: -len(kinds[kind]))
    few = [member for kind in ordered[most - 1 :] for member in kinds[kind]]
    return [*(_doubt(kind, kinds[kind]) for kind in ordered[: most - 1]), _together(few)]


def _together(few: Sequence[tuple[Part, Role]]) -> Doubt:
    """Return one doubt about parts of several kinds: whether each is what its name and form say."""
    likely = {part.name: part.duty or role.duty for part, role in few}
    share = sum(role.shares[role.duty] for _, role in few) / len(few)
    told = listed(f"{name}: {duty}" for name, duty in likely.items())
    as_guessed = tuple(Edit(table="part", name=name, put={"duty": duty}) for name, duty in likely.items())
    rest = {
        "load": sum(role.shares.get("load", 0.0) for _, role in few if role.duty != "load"),
        "cover": sum(role.shares.get(duty, 0.0) for _, role in few for duty in PLAIN if role.duty not in PLAIN),
    }
    whole = sum(rest.values()) or 1.0
    who = _and(tuple(likely))
    clause = f"{who} do what their names and forms say"
    return Doubt(
        id="duty-others",
        text=f"Is this what they do? {told}",
        options=(
            Option(name="as-guessed", text=clause, edits=as_guessed, share=round(share, 2)),
            *(
                Option(
                    name=duty,
                    text=f"{who} {CLAUSES[duty][1]}",
                    edits=tuple(Edit(table="part", name=name, put={"duty": duty}) for name in likely),
                    share=round((1.0 - share) * rest[duty] / whole, 2),
                )
                for duty in ("load", "cover")
            ),
        ),
        default="as-guessed",
        features=tuple((name, "") for name in likely),
    )


def _and(names: Sequence[str]) -> str:
    """Return who is spoken of: names, or how many where they are many."""
    return listed(names) if len(names) <= NAMED_MOST else f"the {len(names)} other parts"


def _doubt(kind: str, members: Sequence[tuple[Part, Role]]) -> Doubt:
    """Return the doubt about parts of one kind: each duty's share is the mean of theirs."""
    parts = [part for part, _ in members]
    shares: dict[Duty, float] = {
        duty: sum(role.shares.get(duty, 0.0) for _, role in members) / len(members) for duty in CLAUSES
    }
    default = parts[0].duty or members[0][1].duty
    offered = [duty for duty in CLAUSES if shares[duty] >= LEAST_SHARE or duty == default]
    if not any(duty in PLAIN for duty in offered):
        offered.append("cover")
    offered.sort(key=lambda duty: (duty != default, -shares[duty]))
    names = listed(part.name for part in parts)
    subject = listed(part.name for part in parts) if len(parts) <= NAMED_MOST else f"the {CALLED[kind]}"
    return Doubt(
        id=f"duty-{kind}",
        text=f"What does {names} do?" if len(parts) == 1 else f"What do these do: {names}?",
        options=tuple(
            Option(
                name=duty,
                text=f"{subject} {CLAUSES[duty][len(parts) > 1]}",
                edits=tuple(Edit(table="part", name=part.name, put={"duty": duty}) for part in parts),
                share=round(shares[duty], 2),
            )
            for duty in offered
        ),
        default=default,
        features=tuple((part.name, "") for part in parts),
    )
