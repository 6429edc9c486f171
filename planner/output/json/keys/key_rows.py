"""How the reference of a JSON file is written down: tables by name, keys with what they hold and what it means."""

from __future__ import annotations

Rows = dict[str, tuple[str, str]]
"""By key: what it holds, and one sentence. ``{name}`` is another table; "or null" where it may be missing."""
Tables = dict[str, tuple[str, Rows]]
"""By name: one sentence, and the keys."""
AMOUNT: Rows = {
    "value": ("number", "What is expected."),
    "low": ("number", "Low end of its range."),
    "high": ("number", "High end of its range."),
}
