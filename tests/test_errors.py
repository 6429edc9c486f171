"""Errors are one sentence: where, what is wrong, what to do."""

from __future__ import annotations

from planner.errors import FitwrightError, JobError, nearest


def test_an_error_reads_as_one_sentence() -> None:
    """Place, fault and cure, in this order."""
    error = JobError(where="job.toml", wrong="it is empty", todo="write a job")

    assert isinstance(error, FitwrightError)
    assert str(error) == "job.toml: it is empty; write a job."


def test_what_a_broken_file_holds_neither_steers_a_terminal_nor_fills_it() -> None:
    """Control characters and direction marks are replaced, endless words cut: the sentence stays one short line."""
    told = str(JobError(where="a\x1b[31m.csv", wrong="'" + "9" * 5000 + "\u202e'\n is no number", todo="\x00"))

    assert told.isprintable()
    assert len(told) < 500
    assert told.endswith("is no number; \ufffd.")


def test_the_nearest_word_or_all_that_are_known() -> None:
    """A slip names one word, as a question; a word that is like none names all, up to a line or two of them."""
    assert nearest("petgg", ["pla", "petg"]) == "did you mean 'petg'?"
    assert str(JobError(where="a", wrong="b", todo=nearest("petgg", ["petg"]))) == "a: b; did you mean 'petg'?"
    assert nearest("?", ["b", "a"]) == "known here: a, b"
    assert nearest("?", [f"n{n:03}" for n in range(100)]).endswith("n029 and 70 more")
