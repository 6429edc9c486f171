"""Serving a desk to a browser, and what axe-core finds there."""

from __future__ import annotations

import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread
from typing import Any

import uvicorn

from planner.desk import DeskFolder, desk_app
from tests.shapes import DATA

AXE = DATA / "axe" / "axe.min.js"
PATIENCE_MS = 90_000
"""The first check measures the Heron: seconds, and more on a busy machine."""


@contextmanager
def served(desk: DeskFolder) -> Iterator[str]:
    """Serve a desk as long as the block lasts; yield the address that opens it."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    port = listening.getsockname()[1]
    app = desk_app(desk, "a-token", port)
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", access_log=False))
    thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://127.0.0.1:{port}/?token=a-token"
    server.should_exit = server.force_exit = True  # a browser keeps its connections open for longer than we wait
    thread.join(10)


def grave(tab: Any) -> list[tuple[str, str, list[str]]]:
    """Return what axe-core finds serious or critical on a page as it stands."""
    if not tab.evaluate("'axe' in window"):
        tab.add_script_tag(content=AXE.read_text(encoding="utf-8"))
    found = tab.evaluate("axe.run(document, {resultTypes: ['violations']})")["violations"]
    return [
        (one["id"], one["help"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
