"""Questions of ``start``: asked line by line, or answered by a file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from planner.assembly import Doubt, Option
from planner.cli.fit.start_questions import answers_in, asked
from planner.errors import CommandError

OPTIONS = tuple(Option(name=name, text=name, edits=(), share=0.5) for name in ("load", "cover"))
DOUBTS = tuple(
    Doubt(id=ident, text="What?", options=OPTIONS, default="load", features=()) for ident in ("a", "b", "c", "d")
)


def _answers(*lines: str) -> dict[str, object]:
    """Return what comes of some typed lines."""
    typed: Iterator[str] = iter(lines)
    return asked(DOUBTS, lambda doubt: Path(f"{doubt.id}.png"), lambda: next(typed, ""))


def test_enter_takes_the_likeliest_and_a_dash_leaves_it_open(capsys: pytest.CaptureFixture[str]) -> None:
    """Enter, a number, a name and a dash: the default, the second, the one named, and none; pictures are named."""
    assert _answers("\n", "2\n", "cover\n", "-\n") == {"a": "load", "b": "cover", "c": "cover"}
    assert "picture: a.png" in capsys.readouterr().err


def test_what_is_no_answer_is_asked_again() -> None:
    """A number too high and a word that no option has are told, and the question stands."""
    assert _answers("7\n", "both\n", "1\n", "\n", "\n", "\n")["a"] == "load"


def test_the_end_of_all_input_leaves_the_rest_open() -> None:
    """Nothing is taken as answered that nobody typed."""
    assert _answers("2\n") == {"a": "cover"}


def test_an_answer_file_holds_lines_of_text(tmp_path: Path) -> None:
    """Lines of id and option are read, ids with a point in quotes too; a number is refused in one sentence."""
    file = tmp_path / "answers.toml"
    file.write_text('unit = "mm"\n"bores-3.2-through" = "m3-screw"\n', encoding="utf-8")
    assert answers_in(file) == {"unit": "mm", "bores-3.2-through": "m3-screw"}
    file.write_text('unit = "mm"\nbores-3.2-through = "m3-screw"\n', encoding="utf-8")  # as the question prints it
    assert answers_in(file) == {"unit": "mm", "bores-3.2-through": "m3-screw"}

    file.write_text("unit = 3\n", encoding="utf-8")
    with pytest.raises(CommandError, match="name of an option"):
        answers_in(file)
