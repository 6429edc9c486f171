"""Changes of the schema, oldest first, run by Alembic."""
