"""A loaded part as the page gets it: few bytes, and nothing that JSON cannot hold."""

from __future__ import annotations

import base64
import json
from typing import Any, cast

import numpy as np
import pytest

from planner.output.strength_view.loaded_json import loaded_json
from planner.output.strength_view.loaded_part import loaded_parts
from planner.plan import Plan
from planner.strength import Bend
from tests.output.strength_view.test_face_values import unfolded


def test_the_heron_takes_few_bytes(plan: Plan) -> None:
    """All loaded parts together under 250 kB, where their meshes take a third of a megabyte."""
    assert sum(len(json.dumps(loaded_json(one), allow_nan=False)) for one in loaded_parts(plan)) < 250_000


def test_the_stream_fits_the_mesh_on_the_page(plan: Plan) -> None:
    """It unfolds over the faces as the page has them, mirrored or not, to the last byte."""
    for one in loaded_parts(plan)[:3]:
        stream = base64.b64decode(str(loaded_json(one)["stream"]))
        assert len(unfolded(stream, one.part.posed.corners_mm)) >= len(one.part.posed.faces)


def test_a_bend_says_how_far_and_how_much_too_large(plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    """A bend of 0.6 mm with its range, and a factor that makes it about a twelfth of the part's size."""
    jaw = next(one for one in loaded_parts(plan) if one.name == "jaw")
    drawn = jaw.part.solid.vertices_mm
    shift = np.zeros_like(drawn)
    shift[:, 1] = 0.6 * ((drawn[:, 0] - drawn[:, 0].min()) / np.ptp(drawn[:, 0])) ** 2
    monkeypatch.setattr(type(jaw), "bend", Bend(points_mm=drawn, shift_mm=shift, low_share=0.8, high_share=1.5))
    monkeypatch.delitem(jaw.__dict__, "fit", raising=False)
    found = cast("dict[str, Any]", loaded_json(jaw))
    del jaw.__dict__["fit"]

    assert found["bend"]["most_mm"] == pytest.approx(0.6)
    assert found["bend"]["times"] == 10.0
    assert "moves 0.6 mm, measured" in found["bend_words"]
    assert "0.48 to 0.9 mm" in found["bend_words"]
    assert len(found["bend"]["amounts"]) == len(found["bend"]["powers"])
