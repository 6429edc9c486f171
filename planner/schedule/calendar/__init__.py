"""Hours, tasks and dates."""
