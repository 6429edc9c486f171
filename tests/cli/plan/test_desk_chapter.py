"""What a desk plans a chapter with: the sums of the command, and a ledger that is made and filled."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.cli.plan.desk_chapter import chapter_filled, chapter_planned
from planner.errors import FitwrightError


def test_the_sums_are_those_of_the_command(chapter: Path) -> None:
    """What is returned is what lies in chapter.json, each job was reported, and new coupons are all that is told again."""
    said = list[str]()
    sums = chapter_planned(chapter, lambda what, _: said.append(what))

    assert sums == json.loads((chapter / "chapter" / "chapter.json").read_text(encoding="utf-8"))
    assert "reading r07" in said
    assert "nothing new" in chapter_filled(chapter)


def test_a_folder_whose_chapter_names_no_ledger_is_one_sentence(tmp_path: Path) -> None:
    """Without the file and without the key: the same sentence; with both the ledger is made."""
    for text in (None, "[chapter]\n"):
        if text is not None:
            (tmp_path / "chapter.toml").write_text(text, encoding="utf-8")
        with pytest.raises(FitwrightError, match="no ledger is named"):
            chapter_filled(tmp_path)
    (tmp_path / "chapter.toml").write_text('[chapter]\nledger = "ledger.db"\n', encoding="utf-8")

    assert chapter_filled(tmp_path).startswith("made")
    assert (tmp_path / "ledger.db").is_file()
