"""The file that a new ledger begins with."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy.engine import Engine

from planner.ledger import events_of, ledger_beside, moves_of, shown, told
from tests.ledger.telling import DAY

TEXT = """
[chapter]
ledger = "ledger.db"
[[person]]
code = "M-1"
roles = ["maker", "lead"]
hours_week = 4.0
[[printer]]
name = "bench-1"
profile = "bench-220"
calibrated_until = 2027-01-31
[[spool]]
id = "S-1"
material = "petg"
colour = "green"
lot = "L-9"
left_g = 620.0
printer = "bench-1"
[[coupon]]
printer = "bench-1"
nozzle_mm = 0.4
material = "petg"
until = 2027-03-01
"""


def test_a_chapters_file_fills_a_new_ledger(tmp_path: Path, ledger: Engine) -> None:
    """People, printers and spools are there; the ledger it names lies beside it."""
    path = tmp_path / "chapter.toml"
    path.write_text(TEXT, encoding="utf-8")
    told(ledger, events_of(path, DAY), DAY)

    assert ledger_beside(path) == str(tmp_path / "ledger.db")
    assert [row["calibrated_until"] for row in shown(ledger, "printers", DAY.date())] == ["2027-01-31"]
    assert [(row["id"], row["lot"], row["left_g"]) for row in shown(ledger, "spools", DAY.date())] == [
        ("S-1", "L-9", 620.0)
    ]
    coupon = {"printer": "bench-1", "nozzle_mm": 0.4, "material": "petg", "until": "2027-03-01", "valid": True}
    assert shown(ledger, "coupons", DAY.date()) == [coupon]


def test_plates_that_may_move_for_a_day(tmp_path: Path) -> None:
    """A number from 0 on; where the file says nothing, nothing is known of it."""
    path = tmp_path / "chapter.toml"
    for text, moves in (("", None), ("[chapter]", None), ("[chapter]\nmoves_a_day = 0", 0)):
        path.write_text(text, encoding="utf-8")
        assert moves_of(path) == moves
    path.write_text("[chapter]\nmoves_a_day = -1", encoding="utf-8")
    with pytest.raises(Exception, match="moves_a_day"):
        moves_of(path)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('"M-1"', '"Anna"', "no code"),
        ('"lead"', '"boss"', "no role"),
        ("bench-220", "bench-221", "bench-220"),
        ("lot =", "lott =", "did you mean 'lot'"),
        ('printer = "bench-1"\nnozzle', 'printer = "bench-2"\nnozzle', "no .*printer.* is called 'bench-2'"),
        ("until = 2027-03-01", "", "the last day on which it is believed"),
    ],
)
def test_a_mistake_is_one_sentence(tmp_path: Path, old: str, new: str, says: str) -> None:
    """A name for a code, a role or profile that is not known, a wrong key: file, key and cure are told."""
    path = tmp_path / "chapter.toml"
    path.write_text(TEXT.replace(old, new), encoding="utf-8")
    with pytest.raises(Exception, match=says):
        events_of(path, DAY)
