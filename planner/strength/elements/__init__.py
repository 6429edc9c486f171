"""Finite elements: tetrahedra of a sound solid, its skin and infill as two zones, and the stress in them."""
