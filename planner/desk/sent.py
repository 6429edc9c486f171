"""What a page sends: bytes up to a limit, a JSON table, and its fields."""

from __future__ import annotations

import json
from typing import Any, cast

from starlette.requests import Request

from planner.errors import CommandError

WORDS_BYTES = 2**20
NUMBER_MOST = 1e9


async def sent_bytes(request: Request, most: int) -> bytes:
    """Return what was sent; stop reading once it is too much."""
    data = bytearray()
    async for piece in request.stream():
        data += piece
        if len(data) > most:
            raise CommandError(where="file", wrong=f"it is larger than {most // 2**20} MB", todo="send a smaller one")
    return bytes(data)


async def sent_table(request: Request) -> dict[str, Any]:
    """Return the table that was sent."""
    try:
        found = json.loads(await sent_bytes(request, WORDS_BYTES) or b"{}")
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        raise CommandError(where="request", wrong="it is not a JSON object", todo="send one")
    return found


def field_of(fields: dict[str, Any], key: str, kind: type) -> Any:
    """Return one field of a kind; a number may be left out."""
    value: Any = fields.get(key)
    if kind is float and value is None:
        return None
    number = isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= NUMBER_MOST
    taken = (
        number and (kind is float or value == int(cast("float", value)))
        if kind in (int, float)
        else isinstance(value, kind)
    )
    if not taken:
        raise CommandError(where=key, wrong=f"{str(value)[:40]!r} cannot be", todo=f"send a {kind.__name__}")
    return kind(value)
