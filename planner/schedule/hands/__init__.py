"""Work by hand after the last plate."""
