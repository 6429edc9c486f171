"""Answers about bores that are drawn for something else: a bearing, an insert, a nut, a peg of another part."""
