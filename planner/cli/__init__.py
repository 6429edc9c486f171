"""Command line: parse, call, print, exit code; one file a command, no geometry."""

from __future__ import annotations

import sys
import tempfile
import traceback
from pathlib import Path
from typing import NoReturn

import typer

from planner.errors import FitwrightError

__all__ = ["main"]


def main() -> None:
    """Run the program: bad input, or a fault of ours, becomes one sentence on stderr and exit code 2, no traceback."""
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
    except Exception as error:  # noqa: BLE001  the outermost place: a hold (1) must never be told of a fault
        message = getattr(error, "format_message", None)  # a wrong word on the command line, whatever its class
        if message is None:
            _refuse(_fault(error))
        _refuse(f"{message()} See fitwright --help.")


def _fault(error: Exception) -> str:
    """Return what to say of an error that nobody foresaw, and keep its trace in a file to send with a report."""
    with tempfile.NamedTemporaryFile(
        "w", prefix="fitwright-fault-", suffix=".txt", delete=False, encoding="utf-8"
    ) as out:
        out.write(f"fitwright {' '.join(sys.argv[1:])}\n{''.join(traceback.format_exception(error))}")
    last = traceback.extract_tb(error.__traceback__)[-1]
    place = f"{Path(last.filename).name} line {last.lineno}"
    told = f"{type(error).__name__}: {error}"[:200]
    return (
        f"a fault in fitwright itself ({told}; {place}). What you had before stands. Please report it to whoever gave "
        f"you fitwright, with {out.name}, which holds the command and the names of files, no meshes."
    )


def _refuse(sentence: str) -> NoReturn:
    """Print one sentence and leave with 2."""
    print(f"fitwright: {' '.join(sentence.split())}", file=sys.stderr)
    sys.exit(2)
