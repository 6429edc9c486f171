"""The family's language: catalogues of what papers say, and how each language writes counts, days and numbers."""

from __future__ import annotations

from planner.output.tongue.catalogue import catalogue_path, read_catalogue
from planner.output.tongue.tongue import ENGLISH, ENGLISH_BELOW, KEPT_LEFT_TO_RIGHT, Tongue, tongue_of

__all__ = ["ENGLISH", "ENGLISH_BELOW", "KEPT_LEFT_TO_RIGHT", "Tongue", "catalogue_path", "read_catalogue", "tongue_of"]
