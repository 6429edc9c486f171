"""How near two bodies come, told without cutting either."""
