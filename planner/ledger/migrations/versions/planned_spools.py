"""The spool that a plate is planned on: the journal stays as it is, the tables of today are made anew."""

from __future__ import annotations

revision = "5"
down_revision = "4"


def upgrade() -> None:
    """Change nothing in the journal: whoever upgrades makes the tables of today from it."""
