"""The set of bench papers, in one folder."""
