"""Pegs: round matter that stands out of a part."""
