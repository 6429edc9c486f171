"""Commands about a device once its pieces are printed."""
