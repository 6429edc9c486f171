"""Plates packed, timed and weighed."""
