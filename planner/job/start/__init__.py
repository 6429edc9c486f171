"""A folder of meshes becomes a job, and a job the text of a commented file."""
