"""The reference of keys: what a job file and a profile may hold, read off the records that their readers fill."""
