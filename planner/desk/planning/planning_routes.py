"""The desk's addresses for planning a chapter: the page, its files, the ledger filled, and the plan itself."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response
from starlette.routing import Route

from planner.desk.events.chapter_events import ChapterEvents
from planner.desk.events.event_routes import seen_line
from planner.desk.planning.chapter_files import ChapterFiles, refused
from planner.desk.planning.chapter_planning import ChapterPlanning, ChapterWork, PlannedSinceError
from planner.desk.sent import field_of, sent_table
from planner.desk.work_folder import ChangedError, DeskFolder
from planner.errors import FitwrightError

PAGE = Path(__file__).parents[1] / "static" / "planning.html"


def planning_routes(folder: DeskFolder, work: ChapterWork | None) -> list[Route]:
    """Return the routes for one folder."""
    files, events = ChapterFiles(folder), ChapterEvents(folder)
    planning = ChapterPlanning(events, work)

    def now() -> dict[str, Any]:
        """Return the files, whether there is a plan, and the ledger's last line, or why it cannot be read."""
        told: dict[str, Any] = {"files": files.names(), "planned": folder.has_chapter(), "plan": planning.progress()}
        try:
            return told | {"seen": events.last_line() if events.there() else None, "ledger": ""}
        except FitwrightError as error:
            return told | {"seen": None, "ledger": str(error)}

    async def page(_: Request) -> Response:
        return FileResponse(PAGE, media_type="text/html")

    async def state(_: Request) -> Response:
        return JSONResponse(await run_in_threadpool(now))

    async def text(request: Request) -> Response:
        return JSONResponse(await run_in_threadpool(files.told, request.path_params["name"]))

    async def save(request: Request) -> Response:
        name, words = request.path_params["name"], field_of(await sent_table(request), "text", str)
        base = request.headers.get("if-match")
        try:
            kept = await run_in_threadpool(files.save, name, words, base and base.strip().strip('"'))
        except ChangedError as error:
            return JSONResponse(await run_in_threadpool(refused, files, name, error), status_code=412)
        return JSONResponse(kept)

    async def fill(_: Request) -> Response:
        return JSONResponse({"told": await run_in_threadpool(planning.fill)} | await run_in_threadpool(now))

    async def start(request: Request) -> Response:
        try:
            return JSONResponse(await run_in_threadpool(planning.start, seen_line(request)))
        except PlannedSinceError as late:
            when = sorted({event.at.isoformat(timespec="minutes") for event in late.since})
            told = {"error": str(late), "when": when, "jobs": sorted({event.subject for event in late.since})}
            return JSONResponse(told | await run_in_threadpool(now), status_code=412)

    async def progress(_: Request) -> Response:
        return JSONResponse(planning.progress())

    return [
        Route("/planning", page),
        Route("/planning/state", state),
        Route("/planning/text/{name:path}", text),
        Route("/planning/text/{name:path}", save, methods=["PUT"]),
        Route("/planning/ledger", fill, methods=["POST"]),
        Route("/planning/plan", start, methods=["POST"]),
        Route("/planning/progress", progress),
    ]
