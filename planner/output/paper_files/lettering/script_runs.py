"""A text parted into what the papers' own face sets and runs of further scripts."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from planner.output.paper_files.lettering.script_faces import ScriptFace, face_of, runs_left
from planner.output.paper_files.type_face import letters

MARKS = ("Mn", "Mc", "Me")
"""General categories of marks (Unicode Standard, 4.5)."""
JOINERS = "\u200c\u200d"
"""Zero-width non-joiner and joiner: letters take other forms beside them (Unicode Standard, 23.2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Some of a text, in the order in which it is read; ``face`` is None for the papers' own."""

    text: str
    face: ScriptFace | None


def pieces(text: str) -> tuple[Piece, ...]:
    """Return the pieces of a text; marks and joiners belong to the letter before them.

    A run from left to right ends at a blank, so that lines may break there. One from right to left goes on over blanks
    and digits to its last letter, as they stand in its order.

    >>> [(one.text, one.face.script if one.face else "") for one in pieces("arm يد يمنى × 2")]
    [('arm ', ''), ('يد يمنى', 'Arabic'), (' × 2', '')]
    """
    found: list[Piece] = []
    between = ""
    for part in _parts(text):
        last = found[-1] if found else None
        if part.face is None:
            between += part.text
        elif last is not None and last.face == part.face and (not between or _goes_on(last, between)):
            found[-1] = Piece(text=last.text + between + part.text, face=last.face)
            between = ""
        else:
            found += [Piece(text=between, face=None)] if between else []
            found.append(part)
            between = ""
    return (*found, Piece(text=between, face=None)) if between else tuple(found)


def _goes_on(last: Piece, between: str) -> bool:
    """Return whether what stands between two runs from right to left belongs to both: blanks and digits."""
    return any(map(runs_left, last.text)) and all(one.isspace() or one.isdigit() for one in between)


def follows(letter: str) -> bool:
    """Return whether a mark or a joiner belongs to the letter before it.

    >>> follows("\u093f"), follows("\u200d"), follows("a")
    (True, True, False)
    """
    return unicodedata.category(letter) in MARKS or letter in JOINERS


def _parts(text: str) -> Iterator[Piece]:
    """Yield the text letter by letter, marks and joiners with the letter before."""
    own, held, face = letters(), "", None
    for letter in text:
        if held and follows(letter):
            held += letter
            continue
        if held:
            yield Piece(text=held, face=face)
        held, face = letter, None if ord(letter) in own else face_of(letter)
    if held:
        yield Piece(text=held, face=face)
