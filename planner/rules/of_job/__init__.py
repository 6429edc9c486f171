"""Rules bound to the features of a job."""
