"""Photos on the desk: their addresses, what is kept of them, and what a length's range does to the verdict."""
