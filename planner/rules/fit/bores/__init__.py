"""Bores at scale, against hardware that keeps its size."""
