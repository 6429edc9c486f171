"""Belts on printed wheels: the width of the groove and the pitch of the teeth."""
