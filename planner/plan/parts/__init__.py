"""Parts at size, in their pose, estimated."""
