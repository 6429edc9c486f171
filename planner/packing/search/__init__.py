"""Searches that lay outlines on beds."""
