"""Force: what a pull at the cord's end does at the tip, with friction, elastics, weight and shared cords."""
