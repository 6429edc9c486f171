"""Bores: facets, cylinders, stacks, countersinks."""
