"""Writing into a job file that is there: settings, and edits as data, whole or not at all."""
