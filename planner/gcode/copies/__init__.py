"""Copies: each piece of a program is laid over its planned part and compared layer by layer, both ways."""
