"""Guesses from meshes: duties by name and form, hardware by bore, each marked as a guess in its record."""

from __future__ import annotations

import pytest

from planner.assembly.folder_guess import with_guesses
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate


def test_a_clearance_bore_is_guessed_to_be_for_its_screw(make_job: MakeJob) -> None:
    """3.4 mm is the medium bore of M3 (ISO 273): a screw M3 is proposed, and what is a guess in it is named."""
    plate = bored_plate(60, 40, 8, [(10, 10, 3.4, 96)])
    job = make_job('[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\n', a=plate)
    guessed = with_guesses(job, {"a": survey(plate)})

    assert [one.diameter_mm for one in guessed.hardware] == [3.0]
    assert guessed.hardware[0].bore_mm == pytest.approx(3.4, abs=0.02)
    assert guessed.hardware[0].guessed == ("kind", "diameter_mm", "fit", "count", "nut")
    assert "duty" in guessed.parts[0].guessed
