"""Labels to cut out: one for each kind of part and each bag, with side, plate, size and code, and nothing personal."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, replace

from planner.output.drawing.shapes import Drawing, Label, Shape, box
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.sheet import Card, Head, Picture, Sheet, Words
from planner.output.papers.bags import bags_of
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.paper_words import head_of, percent, with_count
from planner.output.words.shortened import short
from planner.plan import Plan, PlannedPart

COLUMNS_N = 3
HIGH_MM = 23.0
WORDS_MM = 14.0
"""Room for the line over the labels."""
LETTER_MM = 11.5
"""Side of the box with the letter."""
WIDE_EM = 0.6
"""A letter's width in parts of its height, wider than both faces that print it have on average."""
CAPITAL_EM = 0.75
LARGE_MM, SMALL_MM, LEAST_MM = 4.6, 3.2, 2.1
"""Type of a name, 13 points, of the lines below it, 9, and of what must be small to be whole, 6."""
BELOW_MM = 9.0
"""Room below the letter for what else the label says."""
LATIN_LAST = "\u024f"
"""Names in other scripts stay in one piece: a printer that lacks their letters names each piece by a number."""
PITCH = 1.15
"""From line to line, in parts of the type's height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """One label: a name, and two lines below it."""

    name: str
    first: str
    second: str


def labels(plan: Plan, size: PageSize, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the labels, as many pages as they take."""
    head = head_of(plan, tongue)
    tags = tags_of(plan, head, tongue)
    rows_n = int((size.inner_mm[1] - WORDS_MM) // HIGH_MM)
    per_page = COLUMNS_N * rows_n
    pages = [tags[at : at + per_page] for at in range(0, len(tags), per_page)]
    phrase = tongue.say(
        "Cut along the dashes. A part's label stays with it until it is in its bag; a bag's label goes on the bag."
    )
    title, count = tongue.say("Labels"), str(len(pages))
    cards = tuple(
        Card(
            title=title
            if len(pages) == 1
            else tongue.say("Labels, sheet {number} of {count}", number=str(number), count=count),
            blocks=(Words(text=phrase), Picture(drawing=_drawing(page, head, size, tongue))),
        )
        for number, page in enumerate(pages, 1)
    )
    return Sheet(name="labels", title=title, cards=cards, head=None if tongue.code == "en" else head)


def tags_of(plan: Plan, head: Head, tongue: Tongue = ENGLISH) -> tuple[Tag, ...]:
    """Return the labels of the parts, in the order of their plates, then those of the bags."""
    say = tongue.say
    code = plan.job.recipient or say("no code stated")
    bags = bags_of(plan.job)
    names = [say("bag {n}", n=str(number)) for number, _ in enumerate(bags, 1)]
    bag_of = {part: name for bag, name in zip(bags, names, strict=True) for part in bag.parts}
    found = []
    for part in sorted(plan.parts, key=lambda one: _plates(plan, one)):
        name = part.part.name
        plates = _plates(plan, part)
        where = say("plate {numbers}", numbers=tongue.listed(str(n) for n in plates)) if plates else say("no plate")
        turned = say("mirrored") if part.mirrored else say("not mirrored")
        found.append(
            Tag(
                name=with_count(name, part.part.printed_n),
                first=say(
                    "{plate}, {bag}, {mirrored}", plate=where, bag=bag_of.get(name) or say("no bag"), mirrored=turned
                ),
                second=f"{code} · {tongue.amount(_size(part))} · {head.side}",
            )
        )
    for bag, name in zip(bags, names, strict=True):
        found.append(Tag(name=name, first=tongue.listed(bag.parts), second=f"{code} · {head.size} · {head.side}"))
    return tuple(found)


def _plates(plan: Plan, part: PlannedPart) -> tuple[int, ...]:
    """Return the numbers of the plates that a part lies on."""
    return tuple(p.number for p in plan.plates if any(one.part == part.part.name for one in p.placements))


def _size(part: PlannedPart) -> str:
    """Return a part's own size."""
    sizes = [percent(value) for value in part.scale_percent]
    return sizes[0] if len(set(sizes)) == 1 else " × ".join(sizes)


def _drawing(tags: tuple[Tag, ...], head: Head, size: PageSize, tongue: Tongue) -> Drawing:
    """Return a page of labels at true size, row by row from the top; from the right where the language runs so."""
    wide = size.inner_mm[0] / COLUMNS_N
    rows_n = -(-len(tags) // COLUMNS_N)
    high = rows_n * HIGH_MM
    shapes, words = [], []
    for index, tag in enumerate(tags):
        x, y = wide * (index % COLUMNS_N), high - HIGH_MM * (index // COLUMNS_N + 1)
        left = x + 3.0
        if head.letter:
            edge = wide * COLUMNS_N - left - LETTER_MM if tongue.leftward else left
            shapes.append(box(edge, y + HIGH_MM - 2.0 - LETTER_MM, LETTER_MM, LETTER_MM, stroke_mm=0.5))
            at = (left + LETTER_MM / 2, y + HIGH_MM - LETTER_MM + 0.6)
            words.append(Label(at=at, text=head.letter, size_mm=9.0))
            left += LETTER_MM + 2.5
        words += _lines(tag.name, (left, y + HIGH_MM - 2.0), (x + wide - left - 2.0, LETTER_MM), LARGE_MM)
        words += _lines(f"{tag.first}\n{tag.second}", (x + 3.0, y + BELOW_MM), (wide - 5.0, BELOW_MM - 1.0), SMALL_MM)
    cuts = [((0.0, HIGH_MM * k), (wide * COLUMNS_N, HIGH_MM * k)) for k in range(rows_n + 1)]
    cuts += [((wide * k, 0.0), (wide * k, high)) for k in range(COLUMNS_N + 1)]
    shapes += [Shape(rings=(line,), closed=False, dashed=True, stroke_mm=0.2) for line in cuts]
    return Drawing(
        width_mm=wide * COLUMNS_N,
        height_mm=high,
        about=tongue.many("{n} label: ", "{n} labels: ", len(tags))
        + "; ".join(f"{tag.name}, {tag.first}" for tag in tags),
        shapes=tuple(shapes),
        labels=tuple(replace(one, at=(wide * COLUMNS_N - one.at[0], one.at[1])) for one in words)
        if tongue.leftward
        else tuple(words),
        true_size=True,
    )


def _lines(text: str, top: tuple[float, float], room: tuple[float, float], size_mm: float) -> list[Label]:
    """Return a text in lines that a room holds, in the largest type that shows all of it; ``top`` is its upper left.

    Only where even the least type does not hold it, the last line ends with an ellipsis.
    """
    sizes = [size_mm, *(size for size in (4.0, 3.4, 2.9, 2.6, 2.3, LEAST_MM) if size < size_mm)]
    for size in sizes:
        lines, most_n = _wrapped(text, room[0], size), int(room[1] / (PITCH * size))
        if len(lines) <= most_n:
            break
    else:
        lines = [
            *lines[: most_n - 1],
            short(" ".join(lines[most_n - 1 :]), max(int(room[0] / (_wide_em(text) * size)), 1)),
        ]
    return [
        Label(at=(top[0], round(top[1] - PITCH * size * k - size, 2)), text=line, size_mm=size, anchor="start")
        for k, line in enumerate(lines)
    ]


def _wide_em(text: str) -> float:
    """Return the width of a text's letters in parts of their height: on average, but capitals take more."""
    each = [1.0 if letter in "MWmw@%" else CAPITAL_EM if letter.isupper() else WIDE_EM for letter in text]
    return max(sum(each) / max(len(each), 1), WIDE_EM)


def _wrapped(text: str, room_mm: float, size_mm: float) -> list[str]:
    """Return a text in lines that a width holds, broken at its own line ends, between words, or in a long word."""
    letters_n = max(int(room_mm / (_wide_em(text) * size_mm)), 1)
    return [
        line
        for own in text.split("\n")
        for line in ([own] if max(own, default=" ") > LATIN_LAST else textwrap.wrap(own, letters_n))
    ]
