"""Plain JSON types of every answer."""
