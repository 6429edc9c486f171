"""``fitwright cache``: what is kept from run to run, where, how large it is, and how to be rid of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Annotated

import typer

from planner.cli.options import JsonOption, QuietOption

if TYPE_CHECKING:
    from planner.cache import Entry

RoomArgument = Annotated[
    list[str] | None,
    typer.Argument(metavar="[KIND]...", help="Only these kinds of results, such as survey or plates."),
]
ClearOption = Annotated[bool, typer.Option("--clear", help="Delete it; it is computed again when asked for.")]


def cache(
    kinds: RoomArgument = None, clear: ClearOption = False, json: JsonOption = "", quiet: QuietOption = False
) -> None:
    """Show or delete what is kept from run to run: measures, layers, layouts, solved parts.

    FITWRIGHT_CACHE names another folder, or `off`; FITWRIGHT_CACHE_MB sets how large it may be: what was not used for
    longest goes first.

    Examples: `fitwright cache`, `fitwright cache plates --clear`
    """
    from rich.markup import escape
    from rich.table import Table

    from planner.cache import clear as cleared
    from planner.cache import entries, folder, most_bytes
    from planner.errors import CommandError
    from planner.output import Out

    out, base = Out(json_path=json, quiet=quiet), folder()
    held = _by_room(entries())
    for kind in kinds or ():
        if held and kind not in held:
            raise CommandError(where=kind, wrong="nothing of this kind is kept", todo=f"choose: {', '.join(held)}")
    chosen = tuple(kinds or ())
    shown = _by_room(cleared(chosen)) if clear else {kind: held[kind] for kind in held if not chosen or kind in chosen}
    out.emit(
        {
            "schema": "fitwright/cache/1",
            "folder": None if base is None else str(base),
            "most_mb": most_bytes() / 1e6,
            "cleared": clear,
            "kinds": [{"kind": kind, "entries_n": n, "size_mb": size / 1e6} for kind, (n, size) in shown.items()],
        }
    )
    if base is None:
        out.console.print("Nothing is kept: FITWRIGHT_CACHE is off.")
        return
    total_mb = sum(size for _, size in shown.values()) / 1e6
    what = "deleted" if clear else f"kept, of {most_bytes() / 1e6:,.0f} MB that it may have"
    out.console.print(escape(str(base)), soft_wrap=True)
    out.console.print(f"{total_mb:,.1f} MB {what}")
    rows = Table.grid(padding=(0, 2))
    for kind, (n, size) in shown.items():
        rows.add_row(f"  {escape(kind)}", f"{n} of them", f"{size / 1e6:,.1f} MB")
    out.console.print(rows)


def _by_room(found: Iterable[Entry]) -> Mapping[str, tuple[int, int]]:
    """Return how many entries each room has, and their size in bytes, by the room's name."""
    sizes: dict[str, list[int]] = defaultdict(list)
    for entry in found:
        sizes[entry.room].append(entry.size_bytes)
    return {room: (len(sizes[room]), sum(sizes[room])) for room in sorted(sizes)}
