"""A chapter of one maker, one printer and one spool, for all tests that need no more."""

from __future__ import annotations

CHAPTER = """[chapter]
ledger = "ledger.db"
[[person]]
code = "M-1"
roles = ["maker"]
[[printer]]
name = "bench-220"
[[spool]]
id = "S-1"
material = "petg"
colour = "any"
lot = "L-9"
left_g = 600.0
printer = "bench-220"
"""
