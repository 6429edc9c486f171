"""Prints that several spools fed, coupons with their readings, blocked printers: the journal stays as it is."""

from __future__ import annotations

revision = "4"
down_revision = "3"


def upgrade() -> None:
    """Change nothing in the journal: whoever upgrades makes the tables of today from it."""
