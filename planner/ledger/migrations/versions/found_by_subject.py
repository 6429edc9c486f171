"""Events are found by what they are about."""

from __future__ import annotations

from alembic import op

revision = "2"
down_revision = "1"


def upgrade() -> None:
    """Make the index."""
    op.create_index("event_subject", "event", ["subject"])
