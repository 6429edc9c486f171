"""What cords do in a device: a device's cords on its joints, resolved once, and what they do at any size."""
