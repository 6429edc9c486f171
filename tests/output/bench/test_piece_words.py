"""Bought and cut pieces in words: the job's own names stay, all that the program adds is said in the paper's language."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

import pytest

from planner.job import HardwareKind
from planner.output.bench.piece_words import bought, cut_name, cut_size, kind_words, line_name, padded_part, size_words
from planner.output.tongue import ENGLISH_BELOW, tongue_of
from planner.supplies import Cut, HardwareLine
from tests.output.pseudo import PSEUDO

SCREW = HardwareLine(
    name="lid screw",
    kind="machine-screw",
    size="M3",
    diameter_mm=3.0,
    length_mm=16.0,
    count=2,
    spares_n=1,
    for_parts=("lid", "box"),
    why="the stack",
    price=None,
)
NUT = replace(SCREW, name="nut for lid screw", kind="nut", size="M3 locking", length_mm=None, goes_with="lid screw")


@pytest.mark.parametrize("kind", [*get_args(HardwareKind), "bush", "braided", "elastic", "webbing", "padding"])
def test_every_kind_has_a_word(kind: str) -> None:
    """In English that of the job file; in another language one of its own."""
    assert kind_words(kind) == kind
    assert kind_words(kind, PSEUDO).startswith("«")


def test_a_piece_is_called_as_the_job_calls_it_or_by_what_it_goes_with() -> None:
    """English as before; German says the same, and leaves names alone."""
    german = tongue_of("de")

    assert (bought(SCREW), line_name(NUT), bought(NUT)) == ("machine-screw M3 × 16 mm", NUT.name, "nut M3 locking")
    assert bought(SCREW, german) == "Maschinenschraube M3 × 16 mm"
    assert line_name(SCREW, german) == "lid screw"
    assert line_name(NUT, german) == "Mutter für lid screw"
    assert size_words(NUT, german) == "M3 (Stopp)"


def test_a_bush_keeps_what_only_english_says() -> None:
    """In which part it goes and how it is bored is told in English below."""
    bush = replace(NUT, kind="bush", name="bush for pin in lid, 3 mm bores", size="5.00 mm outside", goes_with="pin")

    assert line_name(bush, tongue_of("de")) == f"Buchse für pin{ENGLISH_BELOW}{bush.name}"
    assert size_words(bush, tongue_of("de")) == f"{ENGLISH_BELOW}{bush.size}"


def test_what_is_cut_has_its_size_in_the_language() -> None:
    """Padding by area and thickness, cord by length; an unknown length is said."""
    cord = Cut(name="pull", kind="braided", length_mm=344.4, width_mm=1.5, area_mm2=None, count=1, why="", price=None)
    pad = replace(cord, name="padding of cuff", kind="padding", length_mm=None, width_mm=3.0, area_mm2=16600.0)

    assert cut_size(cord) == "braided 1.5 mm, 344 mm"
    assert cut_size(cord, tongue_of("de")) == "geflochten 1,5 mm, 344 mm"
    assert cut_size(replace(cord, length_mm=None)) == "braided 1.5 mm, length not known"
    assert cut_size(pad) == "166 cm², 3 mm thick"
    assert cut_name(pad, padded_part(pad), tongue_of("de")) == "Polster von cuff"
