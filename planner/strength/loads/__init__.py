"""Loads: what pushes on a part, where, and what holds it."""
