"""Programs killed at random moments; ``python -m tests.hostile.kills`` takes two hundred."""

from __future__ import annotations

import os
import subprocess
import sys

from tests.shapes import ROOT


def test_a_kill_at_any_moment_loses_nothing_and_leaves_nothing() -> None:
    """One each of plan, ledger, rebore and desk: old files or new, all that was acknowledged, and the next run ends well."""
    words = [sys.executable, "-m", "tests.hostile.kills", "4", "7"]  # apart: it forks, and must have no threads yet
    run = subprocess.run(
        words, check=False, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True
    )

    assert run.returncode == 0, run.stdout + run.stderr
    assert "4 kills {'plan': 1, 'ledger': 1, 'rebore': 1, 'desk': 1}" in run.stdout
