"""Answers as text of 80 columns."""
