"""``photo``: a rendered photo through the whole command; a photo without the card is one sentence."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
from PIL import Image
from typer.testing import CliRunner

from planner.cli.app import app
from planner.errors import PhotoError
from tests.photo.rendered import cylinder_edges_px, photo, shot


def test_the_width_of_a_limb_lies_inside_what_is_said(tmp_path: Path) -> None:
    """A cylinder of 70 mm, 6 mm above the card, from a photo with noise, blur and a bent lens."""
    rng = np.random.default_rng(11)
    one = shot(rng)
    Image.fromarray(photo(one, rng)).save(tmp_path / "arm.png")
    pair = cylinder_edges_px(one, 70.0, 6.0, 130.0, np.array([0.0, 1.0, 0.0]))
    points = ",".join(f"{number:.1f}" for number in pair.ravel())
    done = CliRunner().invoke(app, ["photo", str(tmp_path / "arm.png"), "--points", points, "--round", "--json", "-"])
    found = json.loads(done.stdout)

    assert done.exit_code == 0
    assert found["length_mm"]["low"] <= 70.0 <= found["length_mm"]["high"]
    assert set(found) >= {"length_mm", "tilt_deg", "marks_n"}
    assert list(tmp_path.iterdir()) == [tmp_path / "arm.png"]


def test_a_photo_without_the_card_is_one_sentence(tmp_path: Path) -> None:
    """It says how many marks are seen."""
    Image.fromarray(np.full((600, 800), 120, np.uint8)).save(tmp_path / "arm.png")
    done = CliRunner().invoke(app, ["photo", str(tmp_path / "arm.png"), "--points", "10,10,90,90"])

    assert isinstance(done.exception, PhotoError)
