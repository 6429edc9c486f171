"""Printed pegs, and the bores of other parts that they go into."""
