"""What a screw brings along keeps its size: seats of its head and pockets of its nut are held against it."""
