"""How a section twists: the shear along its edge."""
