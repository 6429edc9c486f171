"""Process: whether the print settings are right for this printer, this material and this geometry.

1. ``settings_findings(job, material, surveys, estimates)`` runs every settings rule.
"""
