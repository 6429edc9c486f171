"""Joints: which copies turn or slide on each other, about what axis."""
