"""Elastics against the cords of a table: which of them, how many, and over which places of other joints."""
