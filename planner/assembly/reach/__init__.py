"""What tools reach in single parts."""
