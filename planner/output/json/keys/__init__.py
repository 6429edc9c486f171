"""The reference of every JSON file that others read, table by table."""
