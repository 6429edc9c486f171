"""What each bench paper says."""
