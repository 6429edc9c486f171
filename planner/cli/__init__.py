"""Command line: parse, call, print, exit code; one file a command, no geometry."""

from __future__ import annotations

import sys

import typer

from planner.errors import FitwrightError

__all__ = ["main"]


def main() -> None:
    """Run the program: bad input becomes one sentence on stderr and exit code 2, never a traceback."""
    from planner.cli.app import app

    try:
        sys.exit(app(sys.argv[1:] or ["--help"], standalone_mode=False) or 0)
    except FitwrightError as error:
        _refuse(str(error))
    except BrokenPipeError:  # the reader of our output went away
        sys.exit(0)
    except OSError as error:
        _refuse(f"{error.filename or 'file'}: {error.strerror or error}; check that it exists and can be written.")
    except MemoryError:
        _refuse("memory: too little for these meshes; simplify them or plan fewer at once.")
    except (KeyboardInterrupt, typer.Abort):
        print("stopped; no half-written file is left.", file=sys.stderr)
        sys.exit(130)
    except Exception as error:
        message = getattr(error, "format_message", None)  # a wrong word on the command line, whatever its class
        if message is None:
            raise
        _refuse(f"{message()} See fitwright --help.")


def _refuse(sentence: str) -> None:
    """Print one sentence and leave with 2."""
    print(f"fitwright: {' '.join(sentence.split())}", file=sys.stderr)
    sys.exit(2)
