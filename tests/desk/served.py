"""Serving a desk to a browser."""

from __future__ import annotations

import json
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread
from typing import Any

import uvicorn

from planner.desk import ChapterWork, DeskFolder, desk_app

PATIENCE_MS = 90_000
"""The first check measures the Heron: seconds, and more on a busy machine."""


@contextmanager
def served(desk: DeskFolder, work: ChapterWork | None = None) -> Iterator[str]:
    """Serve a desk as long as the block lasts; yield the address that opens it."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    port = listening.getsockname()[1]
    app = desk_app(desk, "a-token", port, work)
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", access_log=False))
    thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://127.0.0.1:{port}/?token=a-token"
    server.should_exit = server.force_exit = True  # a browser keeps its connections open for longer than we wait
    thread.join(10)


def without_proofs(context: Any) -> None:
    """Let a browser's pages ask for no proof of remedies: the Heron's take longer than the tests that do not look at them.

    A page asks once a hand rests for a second, and the desk works on after the page is closed.
    """

    def ask(route: Any) -> None:
        """Send the question on, as a slider that still moves asks it."""
        route.continue_(post_data=json.dumps({**route.request.post_data_json, "prove": False}))

    context.route("**/check", ask)
