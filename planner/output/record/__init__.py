"""The record of a device, read back and released."""
