"""One reader for each file format."""
