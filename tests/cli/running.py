"""The program run as its own process."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.shapes import ROOT


def run(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run the program as its own process."""
    command = [sys.executable, "-W", "error", "-m", "planner", *map(str, words)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80"}
    return subprocess.run(command, capture_output=True, encoding="utf-8", check=False, cwd=cwd, env=environment)
