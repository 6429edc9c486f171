"""Command line: parse, call, print, exit code; one file a command, no geometry."""


def main() -> None:
    """Run the program."""
