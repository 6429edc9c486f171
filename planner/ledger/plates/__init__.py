"""Plates as the last plan has them, and as they run."""
