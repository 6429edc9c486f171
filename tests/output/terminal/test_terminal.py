"""What a terminal shows: JSON alone on stdout where it is asked for, findings in groups, empty lists not at all."""

from __future__ import annotations

import json
import sys
import threading
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.output import Out, notes, verdict_line
from tests.output.terminal.consoles import console


def test_json_on_stdout_stands_alone(capsys: pytest.CaptureFixture[str]) -> None:
    """With --json - nothing but JSON is printed."""
    out = Out(json_path="-", quiet=False)
    out.console.print("a sentence")
    out.emit({"schema": "x"})

    assert json.loads(capsys.readouterr().out) == {"schema": "x"}


def test_json_goes_into_its_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With a path the text is still printed; without one nothing is written."""
    Out(json_path=str(tmp_path / "a.json"), quiet=False).emit({"é": 1})
    Out(json_path="", quiet=False).emit({"b": 1})

    assert json.loads((tmp_path / "a.json").read_text(encoding="utf-8")) == {"é": 1}
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]
    assert capsys.readouterr().out == ""


def test_an_empty_list_has_no_title() -> None:
    """A title without lines is not printed; markup in a line is text."""
    out, written = console()
    notes(out, "nothing", [])
    notes(out, "some", ["[bold]x[/]"])

    assert "nothing" not in written.getvalue()
    assert " - [bold]x[/]" in written.getvalue()
    assert verdict_line(Verdict.NO_GO, "[x]").endswith("\\[x]")


def test_progress_is_shown_without_a_thread_of_its_own(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A process with threads does not share work out to other cores, and progress is watched while most is done."""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    monkeypatch.setenv("TTY_COMPATIBLE", "1")
    before = threading.active_count()
    with Out(json_path="", quiet=False).progress() as progress:
        progress("measuring jaw", 0.5)

        assert threading.active_count() == before
    assert "measuring jaw" in capsys.readouterr().err
