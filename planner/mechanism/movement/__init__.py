"""How a device moves at any size: its ranges, cords, forces and play, as records."""
