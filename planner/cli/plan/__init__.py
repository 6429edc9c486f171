"""Commands that plan, release and serve."""
