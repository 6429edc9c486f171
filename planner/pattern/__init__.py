"""Pattern: the side of a part that lies on the skin becomes a flat pattern for its padding, and a buck to form on.

1. ``pattern_of(job, padding, solid, ...)`` finds the side, lays it flat, judges it and makes the buck.
2. ``skin_patch`` finds the surface, ``laid_flat`` unrolls it in the middle of the padding, ``buck`` closes it.
"""

from planner.pattern.dart import Dart
from planner.pattern.flat import Flat
from planner.pattern.pattern import Pattern, pattern_of
from planner.pattern.unrolled import Ring

__all__ = ["Dart", "Flat", "Pattern", "Ring", "pattern_of"]
