"""Finished plates proved from scratch."""
