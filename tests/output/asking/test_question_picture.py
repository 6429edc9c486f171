"""Pictures of questions: every place that is asked about is ringed where it is."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from planner.assembly import Doubt
from planner.output.asking.question_picture import RING, TILE_PX, QuestionPictures
from planner.output.drawing.part_picture import part_view
from planner.survey import survey
from tests.shapes import bored_plate


def test_bores_are_ringed(tmp_path: Path) -> None:
    """Two bores at the ends of a plate: red about both, far apart; none where the part as a whole is asked about."""
    plate = bored_plate(60, 20, 6, [(8, 10, 4, 48), (52, 10, 4, 48)])
    pictures = QuestionPictures({"a": plate}, {"a": survey(plate)})
    bores = Doubt(id="bores-4", text="", options=(), default="", features=(("a", "b1"), ("a", "b2")))
    red = {}
    for doubt in (bores, Doubt(id="duty", text="", options=(), default="", features=(("a", ""),))):
        with Image.open(io.BytesIO(pictures.png(doubt))) as drawn:
            red[doubt.id] = np.argwhere((np.asarray(drawn) == RING).all(axis=2))

    assert np.ptp(red["bores-4"][:, 1]) > TILE_PX[0] / 2
    assert len(red["duty"]) == 0
    assert pictures.written(bores, tmp_path / "questions").is_file()


def test_the_ring_lies_about_the_mouth_that_is_seen() -> None:
    """A bore of 6 mm through a thick plate: its ring's middle is where the middle of its upper mouth is seen."""
    plate = bored_plate(40, 30, 12, [(20, 15, 6, 48)])
    pictures = QuestionPictures({"a": plate}, {"a": survey(plate)})
    doubt = Doubt(id="bores-6", text="", options=(), default="", features=(("a", "b1"),))
    with Image.open(io.BytesIO(pictures.png(doubt))) as drawn:
        red = np.argwhere((np.asarray(drawn) == RING).all(axis=2))
    view = part_view(plate, *TILE_PX)
    x, y = view.at_px((20.0, 15.0, 12.0))

    assert (red.min(axis=0) + red.max(axis=0))[::-1] / 2 == pytest.approx((x, y), abs=1.5)
    assert np.ptp(red[:, 0]) > 6.0 * view.px_per_mm
