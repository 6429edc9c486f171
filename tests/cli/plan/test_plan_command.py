"""``plan``: words about a failed plate need each other."""

from __future__ import annotations

import pytest
from typer.testing import CliRunner

from planner.cli.app import app
from planner.errors import CommandError


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--at", "3h"], "add --failed"),
        (["--cause", "loose"], "add --failed"),
        (["--failed", "1"], "--at"),
        (["--failed", "1", "--at", "3h"], "--cause"),
        (["--failed", "1", "--at", "soon", "--cause", "loose"], "not a time"),
    ],
)
def test_half_a_failure_is_refused(words: list[str], sentence: str) -> None:
    """Plate, time and cause are one: where one is missing the sentence names it, before anything is planned."""
    done = CliRunner().invoke(app, ["plan", "nowhere.toml", *words])

    assert isinstance(done.exception, CommandError)
    assert sentence in str(done.exception)
