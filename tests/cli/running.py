"""The program run with words: in this process, or as a process of its own where that is what a test is about."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from contextlib import chdir, redirect_stderr, redirect_stdout
from pathlib import Path

import pytest

from planner.cli import main
from tests.shapes import ROOT

Done = subprocess.CompletedProcess[str]


def run(*words: str | Path, cwd: Path | None = None) -> Done:
    """Run the program in this process, which has loaded its rooms already: some two seconds less a run."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True) for _ in range(2))
    command = ["fitwright", *map(str, words)]
    code: object = 0
    with pytest.MonkeyPatch.context() as patch, chdir(cwd or Path.cwd()):
        patch.setattr(sys, "argv", command)
        patch.setenv("COLUMNS", "80")
        patch.setattr(sys, "stdin", io.StringIO())
        with redirect_stdout(out), redirect_stderr(err):
            try:
                main()
            except SystemExit as end:
                code = end.code
    told = _read(err)
    assert "a fault in fitwright itself" not in told, told
    return subprocess.CompletedProcess(command, int(str(code or 0)), _read(out), told)


def run_alone(*words: str | Path, cwd: Path | None = None) -> Done:
    """Run the program as its own process, every warning an error."""
    command = [sys.executable, "-W", "error", "-m", "planner", *map(str, words)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80"}
    return subprocess.run(command, capture_output=True, encoding="utf-8", check=False, cwd=cwd, env=environment)


def _read(written: io.TextIOWrapper) -> str:
    """Return what was written, line ends as a pipe's reader sees them."""
    written.seek(0)
    return written.read()
