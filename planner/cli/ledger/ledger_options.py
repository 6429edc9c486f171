"""Where the ledger is, when something happened, and who tells it: options that all events share."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any
from uuid import uuid4

import typer

from planner.errors import CommandError

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

    from planner.ledger import Event

CHAPTER = "chapter.toml"
LedgerOption = Annotated[
    str, typer.Option("--ledger", metavar="FILE|URL", help="The ledger; left out: the one that chapter.toml names.")
]
WhenOption = Annotated[
    str, typer.Option("--when", metavar="MOMENT", help="When it happened, as 2026-12-01T18:30; left out: now.")
]
RoleOption = Annotated[
    str, typer.Option("--role", metavar="ROLE", help="Who tells it: maker, tester, fitter or lead; never a name.")
]


def chapter_files(job: Path) -> list[Path]:
    """Return the chapter's files that may name a job's ledger: above its folder, then in it."""
    home = job if job.is_dir() else job.parent
    return [path for folder in (home.resolve().parent, home) if (path := folder / CHAPTER).is_file()]


def ledger_at(named: str) -> Engine:
    """Return the ledger that is named, or that the chapter's file in this folder names.

    Raises
    ------
    CommandError
        Where neither names one.
    """
    from planner.ledger import ledger_beside, opened

    path = Path(CHAPTER)
    where = named or (ledger_beside(path) if path.is_file() else "")
    if not where:
        todo = f"name it, or write ledger in [chapter] of {CHAPTER} and call from its folder"
        raise CommandError(where="--ledger", wrong="no ledger is named", todo=todo)
    return opened(where)


def moment_of(text: str) -> datetime:
    """Return when something happened; left out: now.

    Raises
    ------
    CommandError
        Where it cannot be read, or lies in the future.
    """
    now = datetime.now().replace(microsecond=0)  # noqa: DTZ005  a chapter runs on the clock on its wall
    if not text:
        return now
    try:
        found = datetime.fromisoformat(text).replace(tzinfo=None)
    except ValueError:
        raise CommandError(where="--when", wrong=f"'{text}' is no moment", todo="write 2026-12-01T18:30") from None
    if found > now:
        raise CommandError(where="--when", wrong=f"{text} is in the future", todo="tell what has happened")
    return found


def event_of(kind: str, subject: str, when: str, role: str, **body: Any) -> Event:
    """Return an event as it is told now; what nobody said is left out of its body."""
    from planner.ledger import Event

    said = {key: value for key, value in body.items() if value not in (None, "", {})}
    return Event(key=uuid4().hex, at=moment_of(when), kind=kind, subject=subject, role=role, body=said)
