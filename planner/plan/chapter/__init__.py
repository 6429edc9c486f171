"""Several jobs on the same printers."""
