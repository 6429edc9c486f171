"""Settings written into a job: everything that a person wrote stays."""

from __future__ import annotations

import tomllib

from planner.job.editing.edit_settings import with_settings

JOB = '# mine\n[job]\nname = "x"  # why\n[settings]\ninfill_percent = 30.0  # firm\n[[part]]\nname = "a"\nmesh = "a.stl"\n'


def test_values_change_and_comments_stay() -> None:
    """One value is replaced, one is added, and each comment is still there."""
    text = with_settings(JOB, {"infill_percent": 20.0, "layer_height_mm": 0.16}, "learnt")
    read = tomllib.loads(text)

    assert read["settings"] == {"infill_percent": 20.0, "layer_height_mm": 0.16}
    assert "# mine" in text
    assert "# why" in text
    assert read["part"] == [{"name": "a", "mesh": "a.stl"}]


def test_a_job_without_settings_gets_the_table() -> None:
    """The table is added, and the rest reads as before."""
    text = with_settings('[job]\nname = "x"\n', {"layer_height_mm": 0.2}, "learnt")

    assert tomllib.loads(text) == {"job": {"name": "x"}, "settings": {"layer_height_mm": 0.2}}
