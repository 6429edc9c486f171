"""Names in letters that no face of the PDF has: each gets a number of its own, and the card says where to read it.

Two names must never look the same on paper, so a question mark for a letter would not do: bags and parts are told
apart by them. Letters of many scripts have a face, see ``lettering``; signs such as a wrench have none.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from planner.output.paper_files.lettering import face_of
from planner.output.paper_files.sheet import BOX, Block, Card, Head, Sheet, Words
from planner.output.paper_files.type_face import letters
from planner.output.tongue import ENGLISH_BELOW, KEPT_LEFT_TO_RIGHT, Tongue, tongue_of
from planner.output.words.block_texts import texts_of, with_texts

LARGE = ("CJK", "Hiragana", "Katakana", "Hangul")
"""Scripts whose faces weigh so much that they come on demand."""
WITH_FACES = 'pip install "fitwright[cjk]"'


def lacking_runs(text: str) -> list[str]:
    """Return the runs of letters that the face lacks, with the blanks inside them.

    >>> lacking_runs("cap ხელი თითი × 2 and እጅ")
    ['ხელი თითი', 'እጅ']
    """
    found, run, gap = [], "", ""
    for letter in text:
        if lacks(letter):
            run, gap = run + (gap if run else "") + letter, ""
        elif run and letter.isspace() and not gap:
            gap = letter
        elif run:
            found.append(run)
            run, gap = "", ""
    return [*found, run] if run else found


def lacks(letter: str) -> bool:
    """Return whether every face lacks a letter; the box to tick is drawn, and format marks are never seen."""
    if ord(letter) in letters() or letter in (BOX, ENGLISH_BELOW) or unicodedata.category(letter) == "Cf":
        return False
    return face_of(letter) is None


def script_of(run: str) -> str:
    """Return the script of a run's first letter, by its Unicode name.

    >>> script_of("ხელი"), script_of("漢字"), script_of("🔧")
    ('Georgian', 'CJK', 'wrench')
    """
    name = unicodedata.name(run[0], "unknown")
    kind = name.split(" ")[0]
    if not run[0].isalpha():
        return name.lower()
    return kind if kind == "CJK" else kind.capitalize()


def in_words(sheets: Sequence[Sheet], head: Head) -> tuple[tuple[Sheet, ...], Head]:
    """Return papers and head with every name that cannot be set as "(name 1)", "(name 2)" …, in order of appearance.

    Each card that holds one says which script it is in, and in which HTML paper it can be read.
    """
    every: list[str] = [head.job, head.recipient]  # the same in every language
    for sheet in sheets:
        for card in sheet.cards:
            every += [card.title, *texts_of(card.blocks)]
    runs = list(dict.fromkeys(run for text in every for run in lacking_runs(text)))
    if not runs:
        return tuple(sheets), head
    names = {run: f"(name {number})" for number, run in enumerate(runs, 1)}
    changed = tuple(
        replace(
            sheet,
            cards=tuple(_card(card, sheet.head or head, f"{sheet.name}.html", names) for card in sheet.cards),
            head=None if sheet.head is None else _head(sheet.head, names),
        )
        for sheet in sheets
    )
    return changed, _head(head, names)


def _head(head: Head, names: Mapping[str, str]) -> Head:
    """Return a head with its names in words."""
    return replace(head, job=_put(head.job, names), recipient=_put(head.recipient, names))


def _card(card: Card, head: Head, file: str, names: Mapping[str, str]) -> Card:
    """Return a card with its names in words, and the line that explains them."""
    mine = _runs_of([head.job, head.recipient, card.title, *texts_of(card.blocks)])
    if not mine:
        return card

    def note(tongue: Tongue) -> str:
        where = "; ".join(
            tongue.say("{name} is in {script} letters", name=names[run], script=script_of(run)) for run in mine
        )
        told = tongue.say(
            "Names that this PDF cannot print: {where}. Read them in {file} beside this PDF.", where=where, file=file
        )
        if not any(script_of(run) in LARGE for run in mine):
            return told
        return f"{told} {tongue.say('{command} adds the letters for the next plan.', command=WITH_FACES)}"

    blocks: tuple[Block, ...] = (
        Words(text=tongue_of(head.language).beside(note), tone="small"),
        *with_texts(card.blocks, lambda text: _put(text, names)),
    )
    return Card(title=_put(card.title, names), blocks=blocks)


def _runs_of(texts: Iterable[str]) -> list[str]:
    """Return the runs of some texts, each once."""
    return list(dict.fromkeys(run for text in texts for run in lacking_runs(text)))


def _put(text: str, names: Mapping[str, str]) -> str:
    """Return a text with each run as its name in words, without marks that are never seen but those of direction."""
    for run in sorted(set(lacking_runs(text)), key=len, reverse=True):
        text = text.replace(run, names[run])
    return "".join(letter for letter in text if unicodedata.category(letter) != "Cf" or letter == KEPT_LEFT_TO_RIGHT)
