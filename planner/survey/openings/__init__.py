"""Slots and cord channels."""
