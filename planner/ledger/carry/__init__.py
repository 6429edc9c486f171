"""Carry: what a ledger knows, in files for other programs."""
