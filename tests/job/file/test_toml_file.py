"""A TOML file, or a sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import read_toml

BAD = [
    (b"a = 1\nb = = 2\n", "it is not TOML"),
    (b"\xff\xfe", "it is not UTF-8 text"),
    (b"a = " + b"9" * 5000, "thousands of digits"),
    (b"a = " + b"[" * 100_000, "nested too deeply"),
    (b"# " + b" " * 4_100_000, "too many for a job"),
]


@pytest.mark.parametrize(("raw", "word"), BAD, ids=[word for _, word in BAD])
def test_what_is_no_toml_is_one_sentence(raw: bytes, word: str, tmp_path: Path) -> None:
    """Not TOML, no text, endless numbers, endless nesting and endless size are told with the file's name."""
    path = tmp_path / "job.toml"
    path.write_bytes(raw)
    with pytest.raises(JobError, match=word) as caught:
        read_toml(path, JobError)

    assert str(caught.value).startswith("job.toml")


def test_a_file_with_a_mark_and_long_line_ends_is_read(tmp_path: Path) -> None:
    """A byte order mark and line ends of two characters, as some editors write them, are taken as they are."""
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbfname = 'x'\r\n")

    assert read_toml(path, JobError).text("name") == "x"
