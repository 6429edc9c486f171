"""What is left after a plate went wrong."""
