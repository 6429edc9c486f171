"""Cords that share joints, or hold each other's tips: what they ask for together."""
