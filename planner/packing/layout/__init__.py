"""What is packed, in which groups, and under which rules."""
