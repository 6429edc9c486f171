"""Loads on the links of closed loops."""
