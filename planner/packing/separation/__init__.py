"""Outlines that overlap are moved apart, compiled."""
