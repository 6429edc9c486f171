"""Curved limbs: how sharply they bend, and what that adds to the stress at their inside."""
