"""Process: whether the print settings are right for this printer, this material and this geometry.

1. ``settings_findings(job, material, surveys=..., estimates=..., scale=...)`` runs every settings rule.
"""

from planner.process.settings_rules import settings_findings

__all__ = ["settings_findings"]
