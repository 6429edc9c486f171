"""The log of a device: the journal stays as it is, the tables of today are made anew."""

from __future__ import annotations

revision = "6"
down_revision = "5"


def upgrade() -> None:
    """Change nothing in the journal: whoever upgrades makes the tables of today from it."""
