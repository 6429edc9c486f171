"""What meshes that share a frame tell: which parts stand as in the device, and which stand in each other."""
