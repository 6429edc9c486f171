"""Every command as a person runs it: output, JSON, exit codes, and one sentence for what is wrong."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from planner.cli import main
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


def test_a_fault_of_ours_is_one_sentence_and_keeps_its_trace(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """An error that nobody foresaw ends with 2, never 1 (a hold), and names the file that holds its trace."""
    monkeypatch.setattr("planner.cli.app.app", lambda *_, **__: os.environ["NO_SUCH_WORD"])
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    with pytest.raises(SystemExit) as end:
        main()

    told = capsys.readouterr().err
    (trace,) = tmp_path.iterdir()
    assert end.value.code == 2
    assert told.count("\n") == 1
    assert str(trace) in told
    assert "KeyError" in trace.read_text(encoding="utf-8")


def test_json_never_replaces_a_device_or_a_folder(tmp_path: Path) -> None:
    """``--json`` writes to new or regular files; a pipe or a folder there is refused, a link is followed."""
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "real.json").write_text("old", encoding="utf-8")
    (tmp_path / "link.json").symlink_to("real.json")
    words = "rules", "bore.tight", "--json"
    for name in ("pipe", "."):
        assert run(*words, tmp_path / name).returncode == 2
    run(*words, tmp_path / "link.json")

    assert (tmp_path / "pipe").is_fifo()
    assert (tmp_path / "link.json").is_symlink()
    assert (tmp_path / "real.json").read_text(encoding="utf-8").startswith("{")


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
