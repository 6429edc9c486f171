"""Cord: its path from what a job names, its taut length at any angle, its bends and its arm about a joint."""
