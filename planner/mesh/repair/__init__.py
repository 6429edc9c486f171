"""From loose triangles to a closed surface."""
