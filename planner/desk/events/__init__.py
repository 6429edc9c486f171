"""What happens in a chapter, told from the desk: several desks at once, and nobody's words lost."""
