"""Shipped and own profiles: printers, materials, settings, limits, stock."""
