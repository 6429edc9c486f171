"""Line drawings of parts and of the device: what is seen from one side, hidden lines removed."""
