"""Drawings and charts."""
