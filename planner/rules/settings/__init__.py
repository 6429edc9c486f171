"""Rules of print settings."""
