"""Matching: which island of a program is which part, by shape, wherever and however turned it lies."""
