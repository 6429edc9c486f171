"""What Alembic runs: the changes of the schema, on the connection that it is given."""

from __future__ import annotations

from alembic import context

if hasattr(context, "config"):  # there only while Alembic runs this
    context.configure(connection=context.config.attributes["connection"], transactional_ddl=False)
    context.run_migrations()
