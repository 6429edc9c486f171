"""A failed plate goes into the log that calibrate reads, and moves the failure rate and the scrap."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.calibrate import Print, append_print, logged, lost_pieces, read_log
from planner.errors import ProfileError
from planner.sourced import stated

FAILED = Print(
    plate="Heron, plate 3",
    planned_h=4.5,
    real_h=None,
    planned_g=61.25,
    real_g=None,
    failed=True,
    cause="loose",
    failed_at_h=3.0,
    pieces_n=4.0,
    lost=(("jaw", 1),),
)


def test_what_is_appended_is_read_back(tmp_path: Path) -> None:
    """A new log gets its head; a second line follows; rate and scrap rise with each failure."""
    path = tmp_path / "print-log.csv"
    append_print(path, FAILED)
    once = logged(read_log(path), stated(0.01), "log")
    append_print(path, FAILED)
    twice = logged(read_log(path), stated(0.01), "log")

    assert read_log(path) == (FAILED, FAILED)
    assert 0.01 < once.failure_per_hour.value < twice.failure_per_hour.value
    # Beta(1.5, 8.5) and one lost piece of four: mean 2.5 / 14 (conjugate; textbook)
    assert once.scrap_share is not None
    assert once.scrap_share.value == pytest.approx(2.5 / 14)


def test_an_older_log_keeps_its_columns_and_its_separator(tmp_path: Path) -> None:
    """Semicolons, no last line end and no column for pieces: the line is added in the same way."""
    path = tmp_path / "log.csv"
    path.write_text("plate;outcome;real_h\n1;done;2,5", encoding="utf-8")
    append_print(path, FAILED)

    assert path.read_text(encoding="utf-8").splitlines() == [
        "plate;outcome;real_h",
        "1;done;2,5",
        "Heron, plate 3;failed;",
    ]
    assert len(read_log(path)) == 2
    assert logged(read_log(path), stated(0.01), "log").scrap_share is None


def test_a_log_that_cannot_be_read_is_not_written_to(tmp_path: Path) -> None:
    """One sentence, and the file stays as it is."""
    path = tmp_path / "log.csv"
    path.write_text("nonsense\n", encoding="utf-8")
    with pytest.raises(ProfileError, match="nonsense"):
        append_print(path, FAILED)

    assert path.read_text(encoding="utf-8") == "nonsense\n"


def test_lost_pieces_are_read_in_words() -> None:
    """Names with and without a count; what is no count is refused."""
    assert lost_pieces("jaw:1 cap:2, link", "--lost") == (("jaw", 1), ("cap", 2), ("link", 1))
    for bad in ("jaw:0", "jaw:x", ":2"):
        with pytest.raises(ProfileError, match="names no pieces"):
            lost_pieces(bad, "--lost")
