"""Guesses from meshes: duties by name, hardware by bore, twins by shape, each listed as a guess."""

from __future__ import annotations

import pytest

from planner.assembly.guess import duty_of, with_guesses
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate


@pytest.mark.parametrize(
    ("name", "duty"),
    [("left-cuff_v2", "shell"), ("front cover", "cover"), ("lock-pins", "pin"), ("deck", "load"), ("grip pad", "soft")],
)
def test_the_last_word_of_a_name_tells_its_duty(name: str, duty: str) -> None:
    """Words that say which one, and plurals, do not matter; load where nothing tells."""
    assert duty_of(name) == duty


def test_a_clearance_bore_is_guessed_to_be_for_its_screw(make_job: MakeJob) -> None:
    """3.4 mm is the medium bore of M3 (ISO 273): a screw M3 is proposed, and both guesses are listed."""
    plate = bored_plate(60, 40, 8, [(10, 10, 3.4, 96)])
    job = make_job('[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\n', a=plate)
    guessed = with_guesses(job, {"a": survey(plate)})

    assert [one.diameter_mm for one in guessed.hardware] == [3.0]
    assert guessed.hardware[0].bore_mm == pytest.approx(3.4, abs=0.02)
    assert {"duty of a", "1 x 3.4 through"} <= {note.what for note in guessed.notes}
