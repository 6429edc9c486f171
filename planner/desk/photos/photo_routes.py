"""The desk's addresses for photos: one comes in and is not kept, two points give a length, and the card is printed."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from planner.desk.desk_work import DeskWork
from planner.desk.photos.photo_desk import PhotoDesk
from planner.desk.sent import field_of, sent_bytes, sent_table
from planner.desk.work_folder import DeskFolder
from planner.output import SIZES, card_pdf

PHOTO_BYTES = 60 * 2**20


def photo_routes(folder: DeskFolder, work: DeskWork) -> list[Route]:
    """Return the addresses; only a photo that its page asks to keep is written into the folder."""
    photos = PhotoDesk()

    async def add(request: Request) -> Response:
        return JSONResponse(await run_in_threadpool(photos.add, await sent_bytes(request, PHOTO_BYTES)))

    async def forget(request: Request) -> Response:
        photos.forget(request.path_params["number"])
        return JSONResponse({})

    async def keep(request: Request) -> Response:
        data = await sent_bytes(request, PHOTO_BYTES)
        return JSONResponse({"kept": await run_in_threadpool(folder.keep_photo, data)})

    async def length(request: Request) -> Response:
        asked = await sent_table(request)
        return JSONResponse((await run_in_threadpool(photos.length, request.path_params["number"], asked)).told())

    async def decides(request: Request) -> Response:
        asked = await sent_table(request)
        taken = await run_in_threadpool(photos.length, request.path_params["number"], asked)
        return JSONResponse(await run_in_threadpool(work.across_range, field_of(asked, "row", int), taken.length))

    async def card(request: Request) -> Response:
        letter = request.query_params.get("paper") == "letter"
        data = await run_in_threadpool(card_pdf, SIZES["letter" if letter else "a4"])
        return Response(data, media_type="application/pdf")

    return [
        Route("/photo", add, methods=["PUT"]),
        Route("/photo/{number}", forget, methods=["DELETE"]),
        Route("/photo/{number}/length", length, methods=["POST"]),
        Route("/photo/{number}/decides", decides, methods=["POST"]),
        Route("/kept-photo", keep, methods=["PUT"]),
        Route("/card.pdf", card),
    ]
