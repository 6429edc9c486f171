"""Ledgers for the tests: a file, and a database of a real PostgreSQL server where one is installed."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.engine import Engine

from planner.ledger import made

NUMBERS = count(1)


def _programs() -> Path | None:
    """Return where PostgreSQL's own programs lie; None where it is not installed."""
    found = shutil.which("initdb")
    here = [Path(found).resolve().parent] if found else []
    return next((path for path in (*here, *sorted(Path("/usr/lib/postgresql").glob("*/bin"))) if path.is_dir()), None)


@pytest.fixture(name="server", scope="session")
def _server() -> Iterator[str]:
    """Yield the URL of a server that lives as long as the tests; in CI there must be one."""
    programs = _programs()
    if programs is None:
        told = "no PostgreSQL is installed (Debian: apt-get install postgresql)"
        if os.environ.get("CI"):
            pytest.fail(told)
        pytest.skip(told)
    folder = Path(tempfile.mkdtemp(prefix="fw-pg-"))
    user = pwd.getpwnam("postgres") if os.getuid() == 0 else pwd.getpwuid(os.getuid())  # it refuses to run as root
    os.chown(folder, user.pw_uid, user.pw_gid)
    as_user = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []} if os.getuid() == 0 else {}

    def do(*words: str) -> None:
        subprocess.run(words, check=True, cwd=folder, stdout=subprocess.DEVNULL, **as_user)  # type: ignore[call-overload]

    data = str(folder / "data")
    do(str(programs / "initdb"), "-D", data, "-U", "tests", "--auth=trust", "--no-sync", "--locale=C", "-E", "UTF8")
    options = f"-k {folder} -c listen_addresses='' -c fsync=off -c shared_buffers=8MB"
    do(str(programs / "pg_ctl"), "-D", data, "-w", "-l", str(folder / "log"), "-o", options, "start")
    try:
        yield f"postgresql://tests@/postgres?host={folder}"
    finally:
        do(str(programs / "pg_ctl"), "-D", data, "-m", "immediate", "stop")
        shutil.rmtree(folder)


@pytest.fixture(name="where", params=["file", "server"])
def _where(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Return a place for a ledger, of each kind."""
    if request.param == "file":
        return str(tmp_path / "ledger.db")
    url: str = request.getfixturevalue("server")
    name = f"ledger{next(NUMBERS)}"
    engine = create_engine(url.replace("postgresql://", "postgresql+psycopg://"), isolation_level="AUTOCOMMIT")
    with engine.connect() as db:
        db.execute(text(f"CREATE DATABASE {name}"))
    engine.dispose()
    return url.replace("/postgres?", f"/{name}?")


@pytest.fixture(name="ledger")
def _ledger(tmp_path: Path) -> Engine:
    """Return an empty ledger in a file."""
    return made(str(tmp_path / "ledger.db"))
