"""Patterns of padding for people and machines: SVG, DXF, PDF, STL, JSON and text in a terminal."""
