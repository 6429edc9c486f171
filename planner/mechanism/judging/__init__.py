"""The rules of movement."""
