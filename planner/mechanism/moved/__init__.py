"""What a mechanism does at one size, as records."""
