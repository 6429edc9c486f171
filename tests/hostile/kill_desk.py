"""A desk that is killed while a page saves jobs, adds meshes and plans."""

from __future__ import annotations

import contextlib
import http.client
import json
import multiprocessing.process
import socket
import threading
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

import uvicorn

from planner.desk import DeskFolder, desk_app
from planner.mesh import read_solid
from planner.whole_folder import files_in
from tests.hostile.kill_scenes import JOB, Scene, Work

PATIENCE_S = 300.0


class DeskScene(Scene):
    """A desk that is sent job files, meshes and the wish to plan, one after the other, as long as it answers."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.place, self.edits_n = folder / "place", 0
        (self.place / "parts").mkdir(parents=True)
        for name in ("box.stl", "plate.stl"):
            (folder / name).rename(self.place / "parts" / name)
        text = JOB.replace('mesh = "', 'mesh = "parts/')
        self.job.unlink()
        (self.place / "job.toml").write_text(text, encoding="utf-8")
        self.mesh = (self.place / "parts" / "box.stl").read_bytes()
        self.text, self.may = text, {text}
        self.meshes: set[str] = set()
        self.port = 0

    def begin(self, number: int) -> Work:  # noqa: ARG002  as of the others
        """Serve the folder at a free port."""
        listening = socket.socket()
        listening.bind(("127.0.0.1", 0))
        listening.listen()
        self.port = listening.getsockname()[1]
        app = desk_app(DeskFolder(self.place, date.today), "a-token", self.port)

        def serve() -> None:
            uvicorn.Server(uvicorn.Config(app, log_level="error", access_log=False)).run(sockets=[listening])

        self.listening = listening
        return serve

    def watched(self, after_s: float, end: Callable[[], None]) -> None:
        """Send what a person does until the desk is gone."""
        self.listening.close()
        ends = threading.Timer(after_s, end)
        ends.start()
        with contextlib.suppress(OSError, http.client.HTTPException):
            self._use(10**6)
        ends.join()

    def answered(self, again: multiprocessing.process.BaseProcess) -> str:
        """Let the next desk take everything and plan to the end; then close it."""
        self.listening.close()
        try:
            self._use(2)
            with contextlib.suppress(ValueError):  # one is being made
                self._ask("POST", "/plan", {"percent": None})
            begin = time.monotonic()
            while (state := self._ask("GET", "/progress"))["state"] == "working":
                if time.monotonic() - begin > PATIENCE_S:
                    return "the next desk plans without end"
                time.sleep(0.05)
            return "" if state["state"] == "done" else f"the next desk: {state}"
        except (OSError, http.client.HTTPException) as error:
            return f"the next desk: {error!r}"
        finally:
            again.terminate()
            again.join(10)
            again._popen.returncode = 0  # type: ignore[attr-defined]

    def _use(self, turns: int) -> None:
        """Send edits, a mesh and the wish to plan; note what was acknowledged and what may have been taken."""
        for _ in range(turns):
            self.edits_n += 1
            text = f"{self.text.partition('# edit')[0]}# edit {self.edits_n}\n"
            self.may = {self.text, text}
            self._ask("PUT", "/job", {"text": text})
            self.text, self.may = text, {text}
            name = f"more-{self.edits_n % 3}.stl"
            self._ask("PUT", f"/mesh/{name}", self.mesh)
            self.meshes.add(name)
            if self.edits_n % 4 == 0:
                with contextlib.suppress(ValueError):  # one is being made
                    self._ask("POST", "/plan", {"percent": None})

    def _ask(self, method: str, path: str, body: object = None) -> dict[str, object]:
        """Ask the desk; ValueError where it refuses."""
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)
        try:
            data = body if isinstance(body, bytes) else json.dumps(body)
            line.request(method, path, data, {"Cookie": f"fitwright_desk_{self.port}=a-token"})
            answer = line.getresponse()
            found: dict[str, object] = json.loads(answer.read())
            if answer.status != 200:
                raise ValueError(found)
            return found
        finally:
            line.close()

    def wrong_now(self) -> str:
        """Return whether job, meshes or plan are not what was last acknowledged, or not whole."""
        text = (self.place / "job.toml").read_text(encoding="utf-8")
        if text not in self.may:
            return f"the job is another one: {text[-20:]!r}"
        self.text = text
        missing = [name for name in self.meshes if not read_solid(self.place / "parts" / name).sound]
        if missing:
            return f"meshes: {missing}"
        plan = self.place / "plan"
        if plan.exists():
            rows = json.loads((plan / "plates" / "manifest.json").read_text(encoding="utf-8"))["files"]
            if set(rows) != files_in(plan) - {"plates/manifest.json"}:
                return "the plan is a mix"
        return ""
