"""Doubts about bores and slots: what goes through, asked once for all of one size; windows are asked about together."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.doubts.bore_answers import Scene, bore_answers, speaks_of_cords
from planner.assembly.doubts.bore_groups import BoreGroup, bore_groups
from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.doubts.mates.over_inserts import apart, inserted, with_inserts
from planner.assembly.doubts.slot_doubts import SlotGroup, slot_groups
from planner.assembly.pegs.pegs_in_bores import pegs_in_bores
from planner.job import Edit, Job
from planner.phrases import listed
from planner.survey import Survey, pin_shafts_mm

TOLD_MOST = 2
"""So many things are told in one answer; more stand in the question."""
WINDOW_SHARE = 0.7
"""Bores that nothing goes through, this surely, are asked about together."""
SURE_MOST = 0.95
PEGGED_SHARE = 0.5
"""Bores that a printed peg goes into, this surely, are asked about before all others."""
Asked = tuple[BoreGroup | SlotGroup, tuple[Answer, ...]]


def answered(job: Job, surveys: Mapping[str, Survey]) -> list[Asked]:
    """Return every group of bores and strap slots that nobody spoke of, with what may be answered, likeliest first."""
    pins = tuple((part.name, mm) for part in job.parts for mm in pin_shafts_mm(surveys[part.name]))
    of_sizes = bore_groups(job, surveys)
    below = inserted(of_sizes, job, surveys)
    groups = apart(of_sizes, below)
    stated = replace(job, left_open=tuple(one for one in job.left_open if not one.guessed))
    scene = Scene(pins_mm=pins, cords=speaks_of_cords(job, surveys), pegs=pegs_in_bores(stated, surveys, ()))
    bores: list[Asked] = [
        (group, tuple(one.only(group.ends_beside(groups, job.limits), group.size_mm) for one in answers))
        for group in groups
        for answers in [with_inserts(group, bore_answers(group, job, scene), below)]
    ]
    stated_by = Counter(name for _, answers in bores for name in {name for one in answers for name in one.names})
    shared = frozenset(name for name, n in stated_by.items() if n > 1 and name[0] == "joint")
    bores = [(group, tuple(replace(one, shared=shared) for one in answers)) for group, answers in bores]
    return [*bores, *((group, group.answers) for group in slot_groups(job, surveys))]


def answers_by_size(job: Job, surveys: Mapping[str, Survey]) -> list[tuple[Answer, ...]]:
    """Return what may be answered about every size of bore and of strap slot, likeliest first."""
    return [answers for _, answers in answered(job, surveys)]


def bore_doubts(job: Job, surveys: Mapping[str, Survey], most: int) -> list[Doubt]:
    """Return at most so many doubts: where there are more, those about the fewest openings are asked together."""
    asked = answered(job, surveys)
    windows = [one for one in asked if one[1][0].name == "nothing" and _share(one[1], one[1][0]) >= WINDOW_SHARE]
    rest = [one for one in asked if one not in windows]
    rest.sort(key=lambda one: (not _likely_pegged(one[1]), -len(one[0].members)))
    if windows or len(rest) > most:
        most = max(0, most - 1)
    found = [_doubt(job, group, answers) for group, answers in rest[:most]]
    few = [*windows, *rest[most:]]
    return [*found, *([_together(job, few)] if few else [])]


def _share(answers: Sequence[Answer], one: Answer) -> float:
    """Return how likely one answer is among all; form alone is never surer than ``SURE_MOST``."""
    share = one.weight_factor / sum(answer.weight_factor for answer in answers)
    return min(max(share, 1.0 - SURE_MOST), SURE_MOST)


def _likely_pegged(answers: Sequence[Answer]) -> bool:
    """Return whether a printed peg more likely goes in than not, turning or fixed: no other question tells of that."""
    return sum(_share(answers, one) for one in answers if one.joints) > PEGGED_SHARE


def _written(job: Job, answers: Sequence[Answer]) -> Answer:
    """Return the answer that the job holds already, as a guess; else the likeliest."""
    here = {
        *(("hardware", one.name) for one in job.hardware),
        *(("open", one.name) for one in job.left_open),
        *(("cord", one.name) for one in job.cords),
        *(("strap", one.name) for one in job.straps),
        *(("joint", " to ".join(one.between)) for one in job.joints),
    }
    found = [answer for answer in answers if answer.names and answer.names <= here]
    return max(found, key=lambda answer: len(answer.names), default=answers[0])


def _instead(answers: Sequence[Answer], one: Answer) -> tuple[Edit, ...]:
    """Return the edits of one answer: the tables of all others go, but for joints that other bores speak of, too."""
    others = sorted({name for answer in answers for name in answer.names - answer.shared} - one.names)
    return (*(Edit(table=table, name=name, drop=True) for table, name in others), *one.edits)


def _options(answers: Sequence[Answer], default: Answer) -> tuple[Option, ...]:
    """Return answers as options, the default first."""
    return tuple(
        Option(
            name=answer.name,
            text=answer.text,
            edits=_instead(answers, answer),
            share=round(_share(answers, answer), 2),
        )
        for answer in sorted(answers, key=lambda answer: (answer is not default, -answer.weight_factor))
    )


def _doubt(job: Job, group: BoreGroup | SlotGroup, answers: Sequence[Answer]) -> Doubt:
    """Return the doubt about bores or slots of one size."""
    default = _written(job, answers)
    deep = isinstance(group, BoreGroup) and not group.through and group.wider is None
    return Doubt(
        id=group.id,
        text=f"What goes {'into' if deep else 'through'} {_called(group)} in {listed(group.parts)}?",
        options=_options(answers, default),
        default=default.name,
        features=group.features,
    )


def _called(group: BoreGroup | SlotGroup) -> str:
    """Return what a group is called in a question."""
    n = len(group.members)
    if isinstance(group, SlotGroup):
        return f"the {n} slots of {group.size_mm:g} mm" if n > 1 else f"the slot of {group.size_mm:g} mm"
    way = "" if group.through else "blind "
    steps = sorted({round(bore.drawn_diameter_mm, 1) for _, bore in group.seats})
    over = f", stepped to {listed(f'{mm:g}' for mm in steps)} mm," if steps else ""
    if group.wider is not None:
        n = len(group.every)
        return f"the {n} bores of {group.size_mm:g} and {group.wider.size_mm:g} mm, on common axes,{over.strip(',')}"
    return (f"the {n} {way}bores" if n > 1 else f"the {way}bore") + f" of {group.size_mm:g} mm{over}"


def _together(job: Job, few: Sequence[Asked]) -> Doubt:
    """Return one doubt about several sizes: whether nothing goes through them, or what is likeliest does."""
    likely = [_written(job, answers) for _, answers in few]
    opens = tuple(one for _, answers in few for one in _named(answers, "nothing").left_open)
    whole = Answer(name="nothing", text="nothing goes through any of them", weight_factor=1.0, left_open=opens)
    share = min(_share(answers, answer) for (_, answers), answer in zip(few, likely, strict=True))
    if {answer.name for answer in likely} == {"nothing"}:
        options = _windows(few, whole, share)
    else:
        options = _as_guessed(few, likely, whole, share)
    sizes = [f"{mm:g}" for mm in sorted({round(group.size_mm, 1) for group, _ in few})]
    told = listed(sizes)
    parts = listed(dict.fromkeys(name for group, _ in few for name in group.parts))
    return Doubt(
        id="bores-others",
        text=f"Does anything go through the openings of {told} mm in {parts}?"
        if options[0].name == "nothing"
        else f"Is this right for the other openings, in {parts}? {_each(few, likely)}",
        options=options,
        default=options[0].name,
        features=tuple(feature for group, _ in few for feature in group.features),
    )


def _each(few: Sequence[Asked], likely: Sequence[Answer]) -> str:
    """Return what is likeliest for each size, in few words."""
    said: dict[str, list[str]] = {}
    for (group, _), one in zip(few, likely, strict=True):
        said.setdefault(_in_words(one.name), []).append(f"{group.size_mm:g}")
    return "; ".join(f"{listed(sizes)} mm: {name}" for name, sizes in said.items())


def _in_words(name: str) -> str:
    """Return an answer's name as it is written in a sentence.

    >>> _in_words("m3-screw"), _in_words("m2.5-insert"), _in_words("6mm-pin"), _in_words("nothing")
    ('M3 screw', 'M2.5 insert', '6 mm pin', 'nothing')
    """
    words = re.sub(r"\bm(?=\d)", "M", name.replace("-", " "))
    return re.sub(r"(?<=\d)mm\b", " mm", words)


def _named(answers: Sequence[Answer], name: str) -> Answer:
    """Return the answer of a name; nothing is always among them."""
    return next(answer for answer in answers if answer.name == name)


def _left(few: Sequence[Asked], whole: Answer) -> tuple[Edit, ...]:
    """Return the edits that leave several sizes open: the tables of all that might go through are taken out."""
    named = {name for _, answers in few for answer in answers for name in answer.names - answer.shared}
    others = sorted(named - whole.names)
    return tuple(Edit(table=table, name=name, drop=True) for table, name in others)


def _windows(few: Sequence[Asked], whole: Answer, share: float) -> tuple[Option, ...]:
    """Return the options about openings that nothing goes through by form: so it is, or a person will name it."""
    gone = tuple(Edit(table=table, name=name, drop=True) for table, name in sorted(whole.names))
    todo = "something goes through (name it under [[hardware]])"
    left = _left(few, whole)
    return (
        Option(name="nothing", text=whole.text, edits=(*left, *whole.edits), share=round(share, 2)),
        Option(name="something", text=todo, edits=(*left, *gone), share=round(1.0 - share, 2)),
    )


def _as_guessed(few: Sequence[Asked], likely: Sequence[Answer], whole: Answer, share: float) -> tuple[Option, ...]:
    """Return the options about rare sizes: what is likeliest for each, or nothing at all."""
    pairs = list(zip(few, likely, strict=True))
    sizes: dict[str, list[str]] = {}
    for (group, _), one in pairs:
        sizes.setdefault(one.text, []).append(f"{group.size_mm:g}")
    told = "the other openings hold what the question says"
    if len(sizes) <= TOLD_MOST:
        told = listed(f"at {listed(mm)} mm {what}" for what, mm in sizes.items())
    edits = tuple(edit for (_, answers), one in pairs for edit in _instead(answers, one))
    return (
        Option(name="as-guessed", text=told, edits=edits, share=round(share, 2)),
        Option(name="nothing", text=whole.text, edits=(*_left(few, whole), *whole.edits), share=round(1.0 - share, 2)),
    )
