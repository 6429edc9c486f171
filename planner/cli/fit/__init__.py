"""Commands about meshes, sizes and fit."""
