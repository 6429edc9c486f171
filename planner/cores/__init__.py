"""Cores: ``ahead(work, items)`` fills the cache with the work of many items on all cores at once."""

from planner.cores.work_ahead import ahead

__all__ = ["ahead"]
