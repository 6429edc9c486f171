"""Pooling: what each of many printers (materials, lots) does, told by its own history and partly by all the others."""
