"""The journal's schema brought up to date by Alembic, then the tables of today made from it anew."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy.engine import Engine

from planner.ledger.journal import rebuilt


def _config() -> Config:
    """Return Alembic's settings: only where its scripts lie."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config


REVISIONS = tuple(reversed([script.revision for script in ScriptDirectory.from_config(_config()).walk_revisions()]))
"""All versions of the schema, oldest first."""


def newest() -> str:
    """Return this program's version."""
    return REVISIONS[-1]


def upgraded(engine: Engine, to: str = "head") -> None:
    """Bring a database to a version, all of it or nothing; what is there is kept."""
    config = _config()
    with engine.begin() as db:
        config.attributes["connection"] = db
        command.upgrade(config, to)
        rebuilt(db)
