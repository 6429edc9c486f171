"""``card``: one PDF where it was asked for; what stands in its way is never replaced."""

from __future__ import annotations

from pathlib import Path

from typer.testing import CliRunner

from planner.cli.app import app
from planner.errors import CommandError


def test_the_card_is_written_and_the_next_command_is_named(tmp_path: Path) -> None:
    """A PDF, the same bytes each time."""
    done = [CliRunner().invoke(app, ["card", "-o", str(tmp_path / name)]) for name in ("a.pdf", "b.pdf")]

    assert [one.exit_code for one in done] == [0, 0]
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()
    assert "fitwright photo" in done[0].stdout


def test_a_folder_is_never_replaced(tmp_path: Path) -> None:
    """One sentence: it is a folder."""
    done = CliRunner().invoke(app, ["card", "-o", str(tmp_path)])

    assert isinstance(done.exception, CommandError)
