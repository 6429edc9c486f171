"""Plates and hands with dates."""
