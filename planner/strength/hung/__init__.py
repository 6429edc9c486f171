"""A weight at the tip of a gripping part: through the joints between them to what is worn."""
