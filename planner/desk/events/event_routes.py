"""The desk's addresses for what happened: in a chapter, by its page and ledger; to a job's plate, by its print log."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response
from starlette.routing import Route

from planner.desk.events.chapter_events import ChapterEvents
from planner.desk.events.print_log_desk import PrintLogDesk
from planner.desk.sent import sent_table
from planner.desk.work_folder import DeskFolder
from planner.errors import CommandError
from planner.ledger import Event, ToldSinceError

PAGE = Path(__file__).parents[1] / "static" / "events.html"


def event_routes(folder: DeskFolder) -> list[Route]:
    """Return the routes for one folder."""
    events, log = ChapterEvents(folder), PrintLogDesk(folder)

    async def page(_: Request) -> Response:
        return FileResponse(PAGE, media_type="text/html")

    async def there(_: Request) -> Response:
        return JSONResponse({"ledger": await run_in_threadpool(events.there)})

    async def state(_: Request) -> Response:
        return JSONResponse(await run_in_threadpool(events.state))

    async def tell(request: Request) -> Response:
        fields, seen = await sent_table(request), seen_line(request)
        try:
            kept = await run_in_threadpool(events.tell, request.path_params["kind"], fields, seen)
        except ToldSinceError as late:
            since = [_row(event) for event in late.since]
            told = {"error": str(late), "yours": fields, "since": since, "seen": late.seen}
            return JSONResponse(told, status_code=412)
        return JSONResponse(kept)

    async def logged(_: Request) -> Response:
        return JSONResponse(await run_in_threadpool(log.state))

    async def print_told(request: Request) -> Response:
        return JSONResponse(await run_in_threadpool(log.tell, await sent_table(request)))

    return [
        Route("/print-log", logged),
        Route("/print-log", print_told, methods=["POST"]),
        Route("/events", page),
        Route("/ledger/there", there),
        Route("/ledger", state),
        Route("/ledger/{kind}", tell, methods=["POST"]),
    ]


def _row(event: Event) -> dict[str, Any]:
    """Return an event as the page shows it."""
    at = event.at.isoformat(timespec="minutes")
    return {"kind": event.kind, "at": at, "role": event.role, "body": dict(event.body)}


def seen_line(request: Request) -> int | None:
    """Return the last line of the journal that the page shows (``If-Match``, RFC 9110); None where nobody says."""
    given = request.headers.get("if-match")
    if given is None:
        return None
    number = given.strip().strip('"')
    if not number.isdecimal() or len(number) > 18:
        raise CommandError(
            where="If-Match", wrong=f"'{given[:40]}' is no line of the journal", todo="load the page anew"
        )
    return int(number)
