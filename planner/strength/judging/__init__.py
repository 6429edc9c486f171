"""Judging: the rules of strength of one job."""
