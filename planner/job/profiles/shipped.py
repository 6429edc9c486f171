"""Where shipped data are: next to the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2]


def shipped(folder: str) -> Path:
    """Return a shipped folder, ``"profiles"`` or ``"sample_parts"``.

    >>> shipped("profiles").is_dir()
    True
    """
    inside = PACKAGE / "shipped" / folder
    return inside if inside.is_dir() else PACKAGE.parent / folder
