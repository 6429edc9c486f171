"""Every command as a person runs it: output, JSON, exit codes, and one sentence for what is wrong."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from planner.cli.app import app
from tests.cli.running import run, run_alone
from tests.shapes import ROOT

WRONG = [
    ("check", "nowhere.toml"),
    ("check", "."),
    ("inspect", "nothing.stl"),
    ("check", "{folder}", "--scale", "-5"),
    ("check", "{folder}", "--printer", "bench-2200"),
    ("check", "{folder}", "--material", "peetg"),
    ("start", "{folder}", "--measure", "cuf=58"),
    ("start", "{folder}", "--measure", "cuff"),
    ("start", "{folder}", "--side", "up"),
    ("start", "{folder}", "--bed", "220"),
    ("start", "{folder}", "--have", "petgg"),
    ("plan", "{folder}", "--unit", "furlong"),
    ("audit", "nothing.gcode", "--job", "{folder}"),
    ("learn", "nothing.gcode", "--job", "{folder}"),
    ("coupon", "--bore", "90"),
    ("coupon", "--printer", "bench-2200"),
    ("calibrate", "nothing.toml"),
    ("chek",),
]


@pytest.mark.parametrize("words", WRONG, ids=" ".join)
def test_what_is_wrong_gives_one_sentence_and_exit_2(words: tuple[str, ...], folder: Path, tmp_path: Path) -> None:
    """Bad words, files and values end with 2 and never with a traceback."""
    (tmp_path / "empty").mkdir()
    done = run(*(word.replace("{folder}", str(folder)) for word in words), cwd=tmp_path / "empty")

    assert done.returncode == 2
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert done.stderr.strip()


def test_as_a_process_of_its_own_it_says_the_same(folder: Path) -> None:
    """Started anew with every warning an error: the same words and exit code as in a process that has run before."""
    alone, here = run_alone("check", folder, "--scale", "80"), run("check", folder, "--scale", "80")

    assert (alone.returncode, alone.stdout, alone.stderr) == (here.returncode, here.stdout, here.stderr)
    assert alone.returncode in (0, 1)
    assert alone.stdout


def test_every_command_has_help_with_an_example() -> None:
    """``--help`` of each command shows how it is used."""
    for command in app.registered_commands:
        assert command.callback is not None
        assert "Example" in (command.callback.__doc__ or ""), command.callback.__name__


def test_help_imports_nothing_heavy() -> None:
    """``--help`` loads no geometry engine."""
    code = "import sys; import planner.cli.app; print([m for m in ('numpy', 'trimesh', 'numba', 'shapely') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)

    assert done.stdout.strip() == "[]"
