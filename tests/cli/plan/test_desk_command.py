"""``desk``: a page on the loopback address alone, at an address with a token."""

from __future__ import annotations

import re
import socket
from pathlib import Path

import pytest
import uvicorn

from tests.cli.running import run


def test_its_address_is_this_computers_and_has_a_token_of_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It listens at 127.0.0.1 and nowhere else; the folder is made; each start has another token."""
    listening: list[tuple[str, int]] = []
    monkeypatch.setattr(
        uvicorn.Server, "run", lambda _, sockets: listening.extend(one.getsockname() for one in sockets)
    )
    told = [run("desk", tmp_path / "new", "--no-open").stdout for _ in range(2)]
    found = [re.search(r"http://127\.0\.0\.1:(\d+)/\?token=(\S{20,})", text) for text in told]

    assert (tmp_path / "new").is_dir()
    assert [(host, str(port)) for host, port in listening] == [("127.0.0.1", one[1]) for one in found if one]
    assert len({one[2] for one in found if one}) == 2


def test_a_port_in_use_and_a_folder_that_is_none_are_one_sentence(tmp_path: Path) -> None:
    """Nothing is served in either case."""
    (tmp_path / "file").write_text("", encoding="utf-8")
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        taken = run("desk", tmp_path / "desk", "--port", str(other.getsockname()[1]), "--no-open")
    none = run("desk", tmp_path / "file", "--no-open")

    assert (taken.returncode, none.returncode) == (2, 2)
    assert "it is in use" in taken.stderr
    assert "this is not a folder" in none.stderr
