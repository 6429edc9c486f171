"""The web application: loopback only, a token, limits of size, and no word from another page."""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware.base import BaseHTTPMiddleware
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from planner.desk.desk_work import DeskWork
from planner.desk.events.event_routes import event_routes
from planner.desk.form import form_of, with_form
from planner.desk.form_rows import place_of
from planner.desk.photos.photo_routes import photo_routes
from planner.desk.planning.chapter_planning import ChapterWork
from planner.desk.planning.planning_routes import planning_routes
from planner.desk.sent import field_of, sent_bytes, sent_table
from planner.desk.work_folder import ChangedError, DeskFolder
from planner.errors import FitwrightError

STATIC = Path(__file__).parent / "static"
SHOWN = {
    "desk.html": "text/html",
    "desk.css": "text/css",
    "form.js": "text/javascript",
    "questions.js": "text/javascript",
    "remedies.js": "text/javascript",
    "findings.js": "text/javascript",
    "after_plan.js": "text/javascript",
    "steps.js": "text/javascript",
    "meshes.js": "text/javascript",
    "photo.js": "text/javascript",
    "photo_marks.js": "text/javascript",
    "both.js": "text/javascript",
    "desk.js": "text/javascript",
    "events.js": "text/javascript",
    "planning.js": "text/javascript",
    "to-events.js": "text/javascript",
}
COOKIE = "fitwright_desk_{}"
"""One for each port: cookies of one host are shared by all its ports, and several desks may be open."""
MESH_BYTES = 200 * 2**20
DESK_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data: blob:; "
    "frame-src 'self'; frame-ancestors 'none'; form-action 'none'; base-uri 'none'"
)
PLAN_POLICY = (
    "sandbox allow-scripts; default-src 'none'; script-src 'unsafe-inline' blob:; "
    "style-src 'unsafe-inline'; img-src data: blob:; font-src data:"
)
"""A plan's page runs in a box of its own: it cannot speak with the desk."""


def desk_app(folder: DeskFolder, token: str, port: int, chapter_work: ChapterWork | None = None) -> Starlette:
    """Return the application for one folder; ``token`` opens it, ``port`` is where it is served.

    ``chapter_work`` plans a chapter; left out: this desk plans none.
    """
    work = DeskWork(folder)

    def saved(text: str) -> Response:
        return JSONResponse(_told(folder, text))

    async def page(request: Request) -> Response:
        given = request.query_params.get("token")
        if given is None:
            return FileResponse(STATIC / "desk.html", media_type="text/html")
        answer = RedirectResponse("/", status_code=303)
        # Lax: a plan's page runs in a box of no origin, and its links to the papers must still open; what changes
        # anything asks for an origin of ours.
        answer.set_cookie(COOKIE.format(port), given, httponly=True, samesite="lax")
        return answer

    async def shown(request: Request) -> Response:
        name = request.path_params["name"]
        if name not in SHOWN:
            return PlainTextResponse("there is no such file", status_code=404)
        return FileResponse(STATIC / name, media_type=SHOWN[name])

    async def state(_: Request) -> Response:
        text = folder.job_words()
        there = {
            "meshes": folder.meshes(),
            "plan": work.progress(),
            "chapter": folder.has_chapter(),
            "planned": folder.has_plan(),
        }
        return JSONResponse({**there, **_told(folder, text)})

    async def add(request: Request) -> Response:
        data = await sent_bytes(request, MESH_BYTES)
        name = await run_in_threadpool(folder.add_mesh, request.path_params["name"], data)
        return JSONResponse({"added": name, "meshes": folder.meshes()})

    async def drop(request: Request) -> Response:
        folder.drop_mesh(request.path_params["name"])
        return JSONResponse({"meshes": folder.meshes()})

    async def alone(request: Request) -> Response:
        return JSONResponse(await run_in_threadpool(work.alone, request.path_params["name"]))

    async def thumbnail(request: Request) -> Response:
        return Response(await run_in_threadpool(work.thumbnail, request.path_params["name"]), media_type="image/png")

    async def release(_: Request) -> Response:
        return JSONResponse(await run_in_threadpool(work.release))

    async def guess(_: Request) -> Response:
        return saved(await run_in_threadpool(folder.guess_job))

    async def questions(_: Request) -> Response:
        return JSONResponse({"questions": await run_in_threadpool(work.questions)})

    async def picture(request: Request) -> Response:
        return Response(await run_in_threadpool(work.picture, request.path_params["id"]), media_type="image/png")

    async def answer(request: Request) -> Response:
        return saved(await run_in_threadpool(work.answer, await sent_table(request), _base(request)))

    async def remedy(request: Request) -> Response:
        fields = await sent_table(request)
        n, text = field_of(fields, "n", int), field_of(fields, "text", str)
        percent = field_of(fields, "percent", float)
        return saved(await run_in_threadpool(work.remedy, n, text, percent, _base(request)))

    async def save(request: Request) -> Response:
        words = field_of(await sent_table(request), "text", str)
        return saved(await run_in_threadpool(folder.save_job, words, _base(request)))

    async def fill(request: Request) -> Response:
        fields = await sent_table(request)
        return saved(await run_in_threadpool(folder.change_job, lambda text: with_form(text, fields), _base(request)))

    async def judge(request: Request) -> Response:
        fields = await sent_table(request)
        percent, prove = field_of(fields, "percent", float), fields.get("prove") is True
        return JSONResponse(await run_in_threadpool(partial(work.judged, percent, prove=prove)))

    async def plan(request: Request) -> Response:
        percent = field_of(await sent_table(request), "percent", float)
        return JSONResponse(await run_in_threadpool(work.start, percent))

    async def progress(_: Request) -> Response:
        return JSONResponse(work.progress())

    async def planned(request: Request) -> Response:
        return shown_alone(folder.of_plan(request.path_params["name"]))

    async def chapter(request: Request) -> Response:
        return shown_alone(folder.of_chapter(request.path_params["name"]))

    def shown_alone(path: Path) -> Response:
        answer = FileResponse(path, filename=None if path.suffix == ".html" else path.name)
        answer.headers["Content-Security-Policy"] = PLAN_POLICY
        return answer

    routes = [
        Route("/", page),
        Route("/static/{name}", shown),
        Route("/state", state),
        Route("/mesh/{name}", add, methods=["PUT"]),
        Route("/mesh/{name}", drop, methods=["DELETE"]),
        Route("/mesh/{name}/answer", alone),
        Route("/mesh/{name}/picture", thumbnail),
        Route("/guess", guess, methods=["POST"]),
        Route("/questions", questions),
        Route("/picture/{id}", picture),
        Route("/answers", answer, methods=["PUT"]),
        Route("/remedy", remedy, methods=["PUT"]),
        Route("/job", save, methods=["PUT"]),
        Route("/form", fill, methods=["PUT"]),
        Route("/check", judge, methods=["POST"]),
        Route("/plan", plan, methods=["POST"]),
        Route("/release", release, methods=["POST"]),
        Route("/progress", progress),
        Route("/plan/{name:path}", planned),
        Route("/chapter/{name:path}", chapter),
        *photo_routes(folder, work),
        *event_routes(folder),
        *planning_routes(folder, chapter_work),
    ]
    app = Starlette(routes=routes, exception_handlers={FitwrightError: partial(_refused, folder)})
    app.add_middleware(BaseHTTPMiddleware, dispatch=partial(_guard, token, port))
    return app


async def _guard(token: str, port: int, request: Request, go_on: Callable[[Request], Awaitable[Response]]) -> Response:
    """Let in only who has the token, asks this address by its own name, and comes from no other page."""
    hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
    origin = request.headers.get("origin")
    if request.headers.get("host") not in hosts or (
        origin is not None and origin not in {f"http://{h}" for h in hosts}
    ):
        return PlainTextResponse("the desk answers only to its own page", status_code=403)
    opening = request.url.path == "/" and request.method == "GET" and "token" in request.query_params
    given = request.query_params["token"] if opening else request.cookies.get(COOKIE.format(port), "")
    if not hmac.compare_digest(given.encode(), token.encode()):
        return PlainTextResponse("open the address that the command printed: it carries the token", status_code=401)
    answer = await go_on(request)
    answer.headers.setdefault("Content-Security-Policy", DESK_POLICY)
    answer.headers["X-Content-Type-Options"] = "nosniff"
    answer.headers["Referrer-Policy"] = "no-referrer"
    answer.headers["Cache-Control"] = "no-store"
    return answer


def _base(request: Request) -> str | None:
    """Return the version of the job that a change was made from (``If-Match``, RFC 9110); None where nobody says."""
    given = request.headers.get("if-match")
    return None if given is None else given.strip().strip('"')


def _told(folder: DeskFolder, text: str) -> dict[str, Any]:
    """Return the job as it now stands, its fields, and its version."""
    return {"job": text, "form": form_of(text), "version": folder.told(text)}


async def _refused(folder: DeskFolder, _: Request, error: Exception) -> Response:
    """Answer with the one sentence; with both texts where the job has changed since."""
    assert isinstance(error, FitwrightError)
    if isinstance(error, ChangedError):
        both = {"error": str(error), "yours": error.yours} | _told(folder, error.theirs)
        return JSONResponse(both, status_code=412)
    place = place_of(error.where)
    words = str(replace(error, where="")).removeprefix(": ")  # at the field itself its place need not be told
    return JSONResponse({"error": str(error), "at": place and place | {"words": words}}, status_code=400)
