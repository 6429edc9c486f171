"""The kinds of cures, each with the candidates that it yields."""
