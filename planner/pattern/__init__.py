"""Pattern: the side of a part that lies on the skin becomes a flat pattern for its padding, and a buck to form on."""

from planner.pattern.patch import Patch, patch_of

__all__ = ["Patch", "patch_of"]
