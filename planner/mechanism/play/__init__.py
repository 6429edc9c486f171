"""Play: how far bores that are wider than their pins let a tip move, and how far fingers part at contact."""
