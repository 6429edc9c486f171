"""Strength of parts at scale: stress at bores and pins, and against the drawn size."""
