"""Rules asked again under each answer that nobody has given yet."""
