"""Legs: what a frame does between its joined ends, where a cut goes through several pieces."""
