"""Cores: ``ahead(work, items)`` fills the cache with the work of many items on all cores at once.

Within ``on_workers(where)`` a cluster does it instead: local processes, or one that runs somewhere.
"""

from planner.cores.on_workers import known_workers, on_workers
from planner.cores.work_ahead import ahead

__all__ = ["ahead", "known_workers", "on_workers"]
