"""``calibrate``: from a coupon to an own profile and back."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import run


def test_from_coupon_to_an_own_profile_and_back(folder: Path, tmp_path: Path) -> None:
    """The coupon is written, its readings are filled in, the profile is fitted, and a check uses it; nothing is overwritten."""
    assert run("coupon", "-o", "c", cwd=tmp_path).returncode == 0
    path = tmp_path / "c" / "readings.toml"
    lines = path.read_text(encoding="utf-8").splitlines()
    for k, line in enumerate(lines):
        if line.startswith("# measured_mm"):
            inside = float(lines[k - 1].split("=")[1])
            lines[k] = f"measured_mm = {inside - 0.13:.2f}"
    path.write_text("\n".join(lines), encoding="utf-8")
    filled = path.read_text(encoding="utf-8")
    assert run("coupon", "-o", "c", cwd=tmp_path).returncode == 0
    done = run("calibrate", "c/readings.toml", "-o", "mine.toml", "--json", "-", cwd=tmp_path)
    found: Any = json.loads(done.stdout)
    checked = run("check", folder, "--printer", tmp_path / "mine.toml", "--json", "-")

    assert path.read_text(encoding="utf-8") == filled
    assert found["undersize"]["upright_mm"]["value"] == pytest.approx(0.13, abs=0.01)
    assert checked.returncode in (0, 1), checked.stderr
    assert "printer.calibrated" in {f["rule"] for f in json.loads(checked.stdout)["findings"]}
