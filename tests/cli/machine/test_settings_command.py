"""``settings``: what is wrong with the settings, and the smallest change that helps."""

from __future__ import annotations

from pathlib import Path

from typer.testing import CliRunner

from planner.cli.app import app
from tests.shapes import cuboid, written

JOB = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[settings]\nlayer_height_mm = {}\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
)


def test_a_layer_too_thick_for_the_nozzle_gets_a_change(tmp_path: Path) -> None:
    """0.5 mm from a nozzle of 0.4 mm does not pass, and a lower layer is proposed; 0.2 mm passes."""
    written(cuboid(30, 20, 5), tmp_path / "a.stl")
    outcomes = []
    for layer_mm in (0.5, 0.2):
        (tmp_path / "job.toml").write_text(JOB.format(layer_mm), encoding="utf-8")
        outcomes.append(CliRunner().invoke(app, ["settings", str(tmp_path / "job.toml")]))

    assert [done.exit_code for done in outcomes] == [1, 0]
    assert "layer_height_mm = " in outcomes[0].stdout
    assert "smallest change of settings that helps" in " ".join(outcomes[0].stdout.split())
