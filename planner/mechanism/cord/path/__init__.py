"""A cord's path: what a job names, as points, channels and wraps."""
