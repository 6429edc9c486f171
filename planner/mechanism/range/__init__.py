"""Range: how far each joint goes until bodies meet, and what meets."""
