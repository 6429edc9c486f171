"""A chapter planned from the desk: its files, the plan made again in the background, and several desks at once."""
