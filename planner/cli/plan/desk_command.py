"""``fitwright desk``: a page to work at, on the loopback address."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

HOST = "127.0.0.1"


def desk(
    folder: Annotated[Path, typer.Argument(help="The folder to work in: meshes, job.toml and plan.")] = Path("desk"),
    port: Annotated[int, typer.Option("--port", metavar="N", help="Port; 0 takes a free one.", min=0, max=65535)] = 0,
    open_page: Annotated[bool, typer.Option("--open/--no-open", help="Open the page in a browser.")] = True,
) -> None:
    """Open a page in the browser: add meshes, fill in the job, try sizes, plan, and open the report.

    Only this computer can reach it, and only at the address that it prints. Examples: `fitwright desk`,
    `fitwright desk ./r07 --port 8800 --no-open`
    """
    import secrets
    import socket
    import webbrowser
    from datetime import date

    import uvicorn

    from planner.cli.plan.desk_chapter import chapter_filled, chapter_planned
    from planner.desk import ChapterWork, DeskFolder, desk_app
    from planner.errors import CommandError

    if folder.exists() and not folder.is_dir():
        raise CommandError(where=str(folder), wrong="this is not a folder", todo="name a folder to work in")
    folder.mkdir(parents=True, exist_ok=True)
    with socket.socket() as listening:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((HOST, port))
        except OSError:
            raise CommandError(where=f"port {port}", wrong="it is in use", todo="name another port, or none") from None
        port = listening.getsockname()[1]
        token = secrets.token_urlsafe(24)
        address = f"http://{HOST}:{port}/?token={token}"
        print(f"The desk for {folder.resolve()} is at\n{address}\nStop it with Ctrl+C.", flush=True)
        if open_page:
            webbrowser.open(address)
        work = ChapterWork(plan=chapter_planned, fill=chapter_filled)
        app = desk_app(DeskFolder(folder, date.today), token, port, work)
        config = uvicorn.Config(app, log_level="error", access_log=False, server_header=False)
        uvicorn.Server(config).run(sockets=[listening])
