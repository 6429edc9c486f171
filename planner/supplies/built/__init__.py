"""The device as it will be built: every decision about hardware, cuts and work, made once for all who read it."""
