"""What is laid in one layer, and in which order."""
