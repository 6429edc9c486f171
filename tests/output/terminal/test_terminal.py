"""What a terminal shows: JSON alone on stdout where it is asked for, findings in groups, empty lists not at all."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.finding import Finding, Verdict
from planner.output import Out, finding_table, notes, verdict_line
from tests.output.terminal.consoles import console


def _finding(feature: str, part: str = "jaw") -> Finding:
    return Finding(rule="bore.tight", part=part, verdict=Verdict.HOLD, why="too tight", feature=feature, measured=2.9)


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


def test_findings_that_differ_in_their_place_share_a_row() -> None:
    """Two bores with one trouble are one row that says so; another part has its own."""
    out, written = console()
    out.print(finding_table([_finding("b1"), _finding("b2"), _finding("b1", "deck")], "title"))
    text = written.getvalue()

    assert text.count("too tight") == 2
    assert "(and 1 like it)" in " ".join(text.split())


def test_an_empty_list_has_no_title() -> None:
    """A title without lines is not printed; markup in a line is text."""
    out, written = console()
    notes(out, "nothing", [])
    notes(out, "some", ["[bold]x[/]"])

    assert "nothing" not in written.getvalue()
    assert " - [bold]x[/]" in written.getvalue()
    assert verdict_line(Verdict.NO_GO, "[x]").endswith("\\[x]")
