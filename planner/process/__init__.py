"""Process: whether the print settings are right for this printer, this material and this geometry.

1. ``settings_findings(job, material, surveys=..., estimates=..., downs=..., scale=...)`` runs every settings rule.
2. ``height_findings`` does so for parts with a layer height of their own.
3. ``smallest_change(settings, judge)`` moves each number that is wrong to its limit, and no farther.
"""

from planner.process.settings_rules import height_findings, settings_findings
from planner.process.smallest_change import Change, smallest_change

__all__ = ["Change", "height_findings", "settings_findings", "smallest_change"]
