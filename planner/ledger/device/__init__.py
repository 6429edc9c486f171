"""A device once its pieces are printed: its log, and what speaks against it being there."""
