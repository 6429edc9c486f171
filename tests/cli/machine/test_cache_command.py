"""``fitwright cache``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.cache import kept, key_of
from tests.cli.running import run


def test_it_shows_what_is_kept_and_clears_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By kind, with sizes; one kind goes, then the rest; a kind that is not there is one sentence and exit 2."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    for room in ("layers", "survey"):
        kept(room, key_of(room), str, lambda: "x" * 1000)

    told = json.loads(run("cache", "--json", "-").stdout)
    assert [(row["kind"], row["entries_n"]) for row in told["kinds"]] == [("layers", 1), ("survey", 1)]
    assert "MB kept" in run("cache").stdout
    refused = run("cache", "no-such", "--clear")
    assert refused.returncode == 2
    assert "layers, survey" in refused.stderr
    assert [row["kind"] for row in json.loads(run("cache", "survey", "--clear", "--json", "-").stdout)["kinds"]] == [
        "survey"
    ]
    assert "layers" in run("cache", "--clear").stdout
    assert json.loads(run("cache", "--json", "-").stdout)["kinds"] == []


def test_it_says_where_nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """With keeping switched off there is nothing to show or to delete."""
    monkeypatch.setenv("FITWRIGHT_CACHE", "off")

    assert "Nothing is kept" in run("cache").stdout
    assert json.loads(run("cache", "--clear", "--json", "-").stdout)["folder"] is None
