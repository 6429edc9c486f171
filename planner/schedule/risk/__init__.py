"""What a plate costs when it may fail."""
