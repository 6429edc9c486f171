"""A line about strength, and what to try on the bench."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from planner.finding import Finding, Verdict
from planner.output.words.strength_words import (
    SCREENING,
    bend_words,
    colour_words,
    difference_words,
    load_words,
    proof_words,
    pull_words,
    strength_line,
)
from planner.strength import Bend, ByElements, LoadCase, Screened


def test_the_weakest_that_passes_is_told() -> None:
    """The largest share of those that pass, a part under two loads counted once; nothing without any."""
    found = [
        Finding(rule="strength.beam", part=part, verdict=verdict, why="", measured=share)
        for part, verdict, share in (
            ("a", Verdict.GO, 12.0),
            ("b", Verdict.GO, 33.0),
            ("b", Verdict.GO, 9.0),
            ("c", Verdict.HOLD, 70.0),
        )
    ]

    assert strength_line(found).startswith(
        "Strength: of 2 loaded parts that pass, b is the weakest. Its load takes 33 %"
    )
    assert "may take three times that" in strength_line(found)
    assert "three times" not in strength_line([replace(one, why="by finite elements, notches in") for one in found])
    assert strength_line([]) == ""


def test_why_elements_and_beam_formulas_differ_is_told() -> None:
    """Above by a notch, below by what is left out near loads, alike, or no answer: each in one sentence."""
    by = {
        share: ByElements(factor=1.0, beam_percent=20.0, share_percent=share, stands=True)
        for share in (40.0, 9.0, 21.0)
    }

    assert difference_words(by[40.0]).startswith("40 % by elements, 20 % by beam formulas under the same loads: a bore")
    assert difference_words(by[9.0]).endswith("the beam formulas count")
    assert difference_words(by[21.0]).endswith("they agree within 15 %")
    assert "gave up" in difference_words(ByElements(factor=1.0, beam_percent=20.0, unknown="the mesher gave up"))


def test_places_that_take_as_much_are_named() -> None:
    """Two of three ties by their places, the third as elsewhere."""
    ties = ((1.0, 2.0, 3.0), (4.0, 5.0, 6.0), (7.0, 8.0, 9.0))
    by = ByElements(factor=1.0, beam_percent=20.0, share_percent=40.0, stands=True, also_mm=ties)

    assert difference_words(by).endswith("as much, within 5 %, at [1.0, 2.0, 3.0], [4.0, 5.0, 6.0] and elsewhere mm")


def test_a_proof_load_says_what_to_watch() -> None:
    """One and a half times what is stated, and no figure is one to count on."""
    assert "30 N" in proof_words(20.0, "jaw")
    assert "cracks" in proof_words(20.0, "jaw")
    assert "no figure is a load to count on" in SCREENING


def test_a_hand_that_pulls_with_all_it_has_is_told() -> None:
    """A fifth of 220 N is judged, and all of it is five times as much; nothing where nobody measured."""
    told = pull_words(220.0, 0.2)
    assert told.startswith("Only the 44 N that")
    assert "220 N loads the cords, and what they pull on, 5 times as much" in told
    assert pull_words(None, 0.2) == ""


def test_colours_and_bends_say_what_they_rest_on() -> None:
    """A guessed load is called so; a bend has its range; without elements the command is named that tells it."""
    case = LoadCase(pushes=(), answers=(), ways=(), said="15 N on b1")
    shift = np.array([[0.0, 0.6, 0.0]])

    assert load_words(Screened(part="jaw", known=False, case=case)) == "15 N on b1 (guessed)"
    assert load_words(Screened(part="jaw", known=False)) == ""
    one, less = (
        Screened(part="jaw", known=True, case=replace(case, said=said)) for said in ("15 N at the tip", "a pull")
    )
    assert "finite elements" in colour_words("elements", one)
    assert "beam formulas" in colour_words("beam", one)
    assert colour_words("beam", one, [less]).endswith(
        "for 15 N at the tip alone; a pull takes less and is not in them."
    )
    assert "--part jaw --elements" in bend_words("jaw", None)
    assert "moves 0.6 mm, measured" in bend_words(
        "jaw", Bend(points_mm=shift, shift_mm=shift, low_share=0.9, high_share=1.2)
    )
