"""What the page answers with when another size is tried: the bound rules, the bag list and the cut list as pieces.

The page holds no rule: it only adds, multiplies and prints what :mod:`planner.output.page.traced_number` followed.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import asdict, fields, replace

from planner.assembly import go_together
from planner.cache import kept, key_of
from planner.finding import Finding, Verdict
from planner.job import Job, kind_of, program_stamp, rule_kinds
from planner.output.page.rule_pieces import Answer, Piece, pieces_of
from planner.output.page.traced_number import Field, Guard, Slot
from planner.plan import Plan
from planner.rules import QUESTIONS_MOST, Rule, hardware_of
from planner.size import Interval
from planner.supplies import Cut, HardwareLine, built, place_of

Json = dict[str, object]
LIVE_VERSION = 1
"""Raised whenever the record of a page's answers changes."""
UNTOLD = ("at_mm", "extent", "evidence", "question_id", "work")
"""Fields of a finding that the page does not print."""
TOLD = tuple(field.name for field in fields(Finding) if field.name not in UNTOLD)
BESIDE = 1e-6
"""So far beside a turn, as a share, the bag list is asked for its lines."""


def live_json(plan: Plan, low_percent: float, high_percent: float) -> Json:
    """Return :func:`live_of` of a plan, kept under its rules and its job: a chapter is planned again and again."""
    # no rule is followed with a date or a reel; so none of them is read
    plain = replace(plan.job, calendar=None, spools=())
    rules = [(type(rule).__qualname__, rule.rule, rule) for rule in plan.rules]
    sizes = (plan.scale_percent, low_percent, high_percent, [_ends(each) for each in plan.window.passes.intervals])
    meshes = [(name, solid.sha256) for name, solid in plan.stage.sized.ready.solids.items()]
    cuts = [cut.name for cut in plan.cuts]
    key = key_of(LIVE_VERSION, program_stamp(), plain, meshes, sizes, cuts, *rules)

    def made() -> str:
        return json.dumps(live_of(plan, plain, low_percent, high_percent), ensure_ascii=False)

    told: Json = json.loads(kept("live", key, str, made))
    return told


def live_of(plan: Plan, job: Job, low_percent: float, high_percent: float) -> Json:
    """Return everything that a page needs to judge any size between two, as plain JSON types.

    ``rules``, ``hardware`` and ``cuts`` are lists of ``{same, pieces}``: fields that never change, and pieces
    ``[to, fields]`` in rising order, of which each gives only the fields that differ from the piece before it. A number
    is ``{v: postfix}``, a text with numbers is a list of texts and ``[postfix, format]``; ``{t: n}`` is entry ``n`` of
    ``said``, where everything that is longer than such a pointer stands once.
    """
    low, high = low_percent / 100.0, high_percent / 100.0

    known: dict[Guard, tuple[float, float]] = {}
    said = Said()

    def over(answers: Sequence[Answer]) -> list[Json]:
        return [said.told(pieces_of(answer, low, high, known=known)) for answer in answers]

    slots = _slots(plan, job, low_percent, high_percent)
    features = [rule.at(1.0).feature for rule in plan.rules]
    rules = [said.told(pieces_of(_rule_answer(rule), low, high, rule.turns(), known)) for rule in plan.rules]

    return {
        "planned_percent": plan.scale_percent,
        "low_percent": low_percent,
        "high_percent": high_percent,
        "severity": [verdict.value for verdict in Verdict],
        "roots": [name for name, kind in rule_kinds().items() if kind.undermines],
        "questions_most": QUESTIONS_MOST,
        "passes": [verdict.value for verdict in Verdict if verdict.passes],
        "workable": [_ends(interval) for interval in plan.window.passes.intervals],
        "rules": rules,
        "hardware": [
            said.told(pieces)
            for pieces in _hardware_lines(plan, job, slots, lambda answer: pieces_of(answer, low, high, known=known))
        ],
        "work": [[n for n, rule in enumerate(plan.rules) if hardware_of(rule) == name] for name in slots],
        "cuts": over([_cut_answer(plan, job, index, features) for index in range(len(plan.cuts))]),
        "said": said.entries,  # the last: all that came before is in it
    }


def _ends(interval: Interval) -> list[float | None]:
    """Return both ends of an interval."""
    return [interval.low_percent, interval.high_percent]


def finding_fields(finding: Finding) -> dict[str, object]:
    """Return the fields of a finding, its place in words."""
    at = finding.at_mm
    return {
        **{key: getattr(finding, key) for key in TOLD},
        "verdict": finding.verdict.value,
        "at": "" if at is None else "{:.1f}, {:.1f}, {:.1f} mm".format(*at),
    }


def _rule_answer(rule: Rule) -> Answer:
    """Return what one rule answers at a scale."""
    return lambda s: finding_fields(rule.at(s))


def _slots(plan: Plan, job: Job, low_percent: float, high_percent: float) -> dict[str, str]:
    """Return the names of all lines that the bag list has at any size, with the job's own piece that each goes with.

    A nut or a bush may be needed at some sizes alone: the sizes on both sides of every turn of a bore's rule are asked.
    """
    turns = {100.0 * turn for rule in plan.rules if hardware_of(rule) for turn in rule.turns()}
    beside = [turn * share for turn in turns for share in (1.0 - BESIDE, 1.0 + BESIDE)]
    sizes = [plan.scale_percent, low_percent, high_percent, *sorted(beside)]
    rules = [rule for rule in plan.rules if hardware_of(rule) and kind_of(rule.rule).bench]
    found: dict[str, HardwareLine] = {}
    for percent in dict.fromkeys(round(size, 4) for size in sizes if low_percent <= size <= high_percent):
        factor = percent / 100.0
        lines = built(job, factor, [rule.at(factor) for rule in rules]).hardware
        found |= {line.name: line for line in lines}
    ordered = sorted(found.values(), key=lambda line: place_of(job, line))
    return {line.name: line.goes_with or line.name for line in ordered}


def _hardware_lines(
    plan: Plan, job: Job, slots: Mapping[str, str], pieced: Callable[[Answer], Sequence[Piece]]
) -> list[list[Piece]]:
    """Return each line of the bag list in pieces; lines of pieces that go together are followed together.

    ``slots`` give the names of all lines with the job's own piece that each goes with.
    """
    groups: dict[tuple[str, ...], list[str]] = {}
    for name, whose in slots.items():
        groups.setdefault(tuple(one.name for one in go_together(job, [whose])), []).append(name)
    found: dict[str, list[Piece]] = {}
    for together, names in groups.items():
        pieces = pieced(_hardware_answer(plan, job, frozenset(together), names))
        for place, name in enumerate(names):
            found[name] = _of_one(pieces, f"{place}:")
    return [found[name] for name in slots]


def _hardware_answer(plan: Plan, job: Job, together: AbstractSet[str], names: Sequence[str]) -> Answer:
    """Return lines of the bag list at a scale, each field behind its line's place; none where it is not needed there.

    The work on its bores is the findings' own (see ``work``).
    """
    own = replace(job, hardware=tuple(one for one in job.hardware if one.name in together))
    rules = [rule for rule in plan.rules if hardware_of(rule) in together and kind_of(rule.rule).bench]

    def at(s: float) -> dict[str, object]:
        lines = {line.name: line for line in built(own, s, [rule.at(s) for rule in rules]).hardware}
        told = {
            place: {**line_fields(lines[name]), "work": ""} if name in lines else {"name": ""}
            for place, name in enumerate(names)
        }
        return {f"{place}:{key}": value for place, fields in told.items() for key, value in fields.items()}

    return at


def _of_one(pieces: Sequence[Piece], prefix: str) -> list[Piece]:
    """Return the pieces of one line among several: its own fields, and no end where only another line turns."""
    found: list[Piece] = []
    for piece in pieces:
        fields = {key.removeprefix(prefix): value for key, value in piece.fields.items() if key.startswith(prefix)}
        if found and found[-1].fields == fields:
            found.pop()
        found.append(Piece(to_factor=piece.to_factor, fields=fields))
    return found


def _cut_answer(plan: Plan, job: Job, index: int, features: Sequence[str]) -> Answer:
    """Return one line of the cut list at a scale; only the rules about its own slot are asked."""
    mine = [rule for rule, feature in zip(plan.rules, features, strict=True) if feature == plan.cuts[index].name]
    bare = replace(job, hardware=())
    return lambda s: line_fields(built(bare, s, [rule.at(s) for rule in mine]).cuts[index])


def line_fields(line: HardwareLine | Cut) -> dict[str, object]:
    """Return the fields of a line of a list."""
    told = asdict(line)
    return told | {"for_parts": ", ".join(told["for_parts"])} if "for_parts" in told else told


class Said:
    """What answers hold as plain JSON types, everything long said once, however many answers and pieces repeat it."""

    def __init__(self) -> None:
        self.entries: list[object] = []
        self._places: dict[str, int] = {}

    def told(self, pieces: Sequence[Piece]) -> Json:
        """Return an answer: what never changes, and of each piece what differs from the one before it."""
        first = pieces[0].fields
        same = {key for key, value in first.items() if all(key in p.fields and p.fields[key] == value for p in pieces)}
        changes, before = list[list[object]](), dict[str, Field]()
        for piece in pieces:
            now = {key: value for key, value in piece.fields.items() if key not in same}
            gone = {key: "" for key in before if key not in now}
            changed = {key: value for key, value in now.items() if before.get(key, "") != value}
            changes.append([piece.to_factor, self._coded({**gone, **changed})])
            before = now
        return {
            "same": self._coded({key: value for key, value in first.items() if key in same and value != ""}),
            "pieces": changes,
        }

    def _coded(self, told: Mapping[str, Field]) -> Json:
        """Return some fields, each as it is or as the place where it stands."""
        return {key: self._pointed(_field(value)) for key, value in told.items()}

    def _pointed(self, value: object) -> object:
        """Return a value, or where it stands if that is shorter."""
        text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
        place = self._places.get(text, len(self.entries))
        if len(text) <= len(f'{{"t":{place}}}'):
            return value
        if place == len(self.entries):
            self._places[text] = place
            self.entries.append(value)
        return {"t": place}


def _field(value: Field) -> object:
    """Return one field as plain JSON."""
    if isinstance(value, Slot):
        return {"v": list(value.code)}
    if isinstance(value, tuple):
        return [[list(piece.code), piece.spec] if isinstance(piece, Slot) else piece for piece in value]
    return value
