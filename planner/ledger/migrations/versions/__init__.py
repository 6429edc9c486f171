"""One module for each change of the schema."""
