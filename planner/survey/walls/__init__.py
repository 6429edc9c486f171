"""Walls, and where matter only runs out to an edge."""
