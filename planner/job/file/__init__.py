"""Reading and writing ``job.toml``, table by table."""
