"""``python -m tests.accuracy``: recompute every outside reference, print the page, and write it beside this file."""

from __future__ import annotations

import sys

from planner.whole_file import write_text
from tests.accuracy.page import PAGE, all_rows, page


def main() -> int:
    """Print the page, and return whether a row lies farther off than it may."""
    rows = all_rows()
    ours = [row.ours() for row in rows]
    text = "\n".join(page(rows, ours)) + "\n"
    sys.stdout.write(text)
    write_text(PAGE, text)
    off = [row for row, found in zip(rows, ours, strict=True) if not abs(found - row.expected) <= row.within]
    for row in off:
        print(f"too far off: {row.source}, {row.what}", file=sys.stderr)
    return 1 if off else 0


if __name__ == "__main__":
    sys.exit(main())
