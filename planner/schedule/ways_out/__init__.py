"""What would bring a late device forward."""
