"""Parts as the page draws them: where they stand, how thick they are, where their bores go."""

from __future__ import annotations

import base64
from typing import Any

import numpy as np
import pytest

from planner.layers import FaceKind, held_faces
from planner.output.page import page_bodies as bodies
from planner.output.page.page_bodies import bodies_json
from tests.output.conftest import Reports


def _unpacked(body: dict[str, Any]) -> tuple[Any, Any, Any]:
    """Return vertices in mm, faces, and walls in mm (0 for none)."""
    mesh = body["mesh"]
    grid = np.frombuffer(base64.b64decode(mesh["vertices"]), "<u2").reshape(-1, 3)
    faces = np.frombuffer(base64.b64decode(mesh["faces"]), "<u2" if mesh["wide"] == 2 else "<u4").reshape(-1, 3)
    walls = np.frombuffer(base64.b64decode(mesh["walls"]), "u1") * mesh["wall_step_mm"]
    return np.array(mesh["low"]) + np.array(mesh["step"]) * grid, faces, walls


def test_meshes_and_walls_come_through(reports: Reports) -> None:
    """Vertices within 0.01 mm of the part as it stands, walls at size within half a step of the survey's."""
    plan = reports.plan("heron")
    for part, body in zip(plan.parts, bodies_json(plan), strict=True):
        vertices, faces, walls = _unpacked(body)
        meant = part.survey.walls.of_face_mm * part.scale_percent[0] / 100.0
        inside = ~np.isnan(meant) & (meant < 10.0) & (meant > 0.1)

        assert np.abs(vertices - part.posed.vertices_mm).max() < 0.01
        assert (faces == part.posed.faces).all()
        assert np.abs(walls[inside] - meant[inside]).max() < 0.025
        assert (walls[np.isnan(meant)] == 0).all()
        held = np.frombuffer(base64.b64decode(body["mesh"]["held"]), "u1")  # type: ignore[index]
        assert (held == held_faces(part.posed, plan.job.settings)).all()
        assert part.estimate
        assert bool((held == FaceKind.HELD).any()) == part.estimate.needs_support


def test_bores_lie_in_the_mesh_as_it_stands(reports: Reports) -> None:
    """Corners of the mesh lie on every bore's wall, mirrored parts too: its axis went where the part went."""
    plan = reports.plan("heron")
    assert any(part.mirrored for part in plan.parts)
    for part, body in zip(plan.parts, bodies_json(plan), strict=True):
        for bore in body["bores"]:  # type: ignore[attr-defined]
            a, b = (np.array(end) for end in bore["ends"])
            axis = (b - a) / np.linalg.norm(b - a)
            away = part.posed.vertices_mm - a
            along = away @ axis
            radius = np.linalg.norm(away - along[:, None] * axis, axis=1)
            on_wall = np.abs(radius - bore["mm"] / 2) < 0.03

            assert int((on_wall & (along > -0.1) & (along < np.linalg.norm(b - a) + 0.1)).sum()) >= 8


def test_hardware_is_named_at_its_bores(reports: Reports) -> None:
    """Every bore that hardware goes through says which."""
    named = {bore["hardware"] for body in bodies_json(reports.plan("heron")) for bore in body["bores"]}  # type: ignore[attr-defined]

    assert {line.name for line in reports.plan("heron").job.hardware if line.kind != "nut"} <= named


def test_a_page_never_grows_too_large(reports: Reports, monkeypatch: pytest.MonkeyPatch) -> None:
    """Past the budget the largest parts are left out, with the reason; the smaller ones stay."""
    monkeypatch.setattr(bodies, "BUDGET_BYTES", 60_000)
    found = bodies_json(reports.plan("heron"))
    left_out = {body["name"] for body in found if body["mesh"] is None}

    assert {"guide", "cuff"} <= left_out
    assert "cap" not in left_out
    assert all(("too large" in str(body["left_out"])) == (body["mesh"] is None) for body in found)
