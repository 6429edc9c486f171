"""Numbers and verdicts in plain words."""
