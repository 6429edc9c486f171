"""Field: what share of the strength is taken all over a part's surface, and how it bends, for pictures."""
