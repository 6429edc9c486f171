"""Plates written and read back."""
