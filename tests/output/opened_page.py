"""A page open in a browser: what it said and asked for, and what is put back where tests share it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

AS_OPENED = """() => { window.asOpened = [...document.querySelectorAll('details')].map((d) => d.open); }"""
PUT_BACK = """() => {
  document.activeElement.blur();
  document.documentElement.style.scrollBehavior = 'auto';
  document.getElementById('finder')?.reset();
  document.getElementById('back')?.click();
  for (const [id, kind] of [['which', 'change'], ['faces', 'change'], ['height', 'input']]) {
    const e = document.getElementById(id);
    const first = e && (e.options ? [...e.options].find((o) => o.defaultSelected) ?? e.options[0] : { value: e.defaultValue }).value;
    if (e && e.value !== first) { e.value = first; e.dispatchEvent(new Event(kind)); }
  }
  document.activeElement.blur();
  window.scrollTo(0, 0);
  const all = [...document.querySelectorAll('details')];
  all.forEach((d, k) => { if (d.open !== window.asOpened[k]) d.open = window.asOpened[k]; });
  return all.length === window.asOpened.length; }"""
"""Puts back what a hand has moved: size, filter, part, faces, height, and what was opened."""


class Opened:
    """A page in the browser, with all that it said and asked for."""

    def __init__(self, tab: Any, file: Path) -> None:
        """Open a file and listen."""
        self.tab, self.file = tab, file
        self.wrong: list[str] = []
        self.asked: list[str] = []
        tab.on("console", lambda said: self.wrong.append(said.text) if said.type == "error" else None)
        tab.on("pageerror", lambda error: self.wrong.append(str(error)))
        tab.on("request", lambda request: self.asked.append(request.url))
        tab.goto(file.as_uri())
        # The device's picture begins once the page has been shown; what a test reads before that is half a page.
        if tab.query_selector("#device"):
            tab.wait_for_selector("#device[data-begun]", state="attached")

    @property
    def outside(self) -> list[str]:
        """Return what was asked for besides the file itself and data inside it."""
        return [url for url in self.asked if url != self.file.as_uri() and not url.startswith(("data:", "blob:"))]

    def put_back(self, width: int, height: int) -> None:
        """Make the page again what it was when it was opened."""
        self.tab.set_viewport_size({"width": width, "height": height})
        assert self.tab.evaluate(PUT_BACK)

    def try_size(self, percent: float) -> None:
        """Move the slider as a hand does."""
        self.tab.evaluate(
            "p => { const e = document.getElementById('slider'); e.value = p; e.dispatchEvent(new Event('input')); }",
            percent,
        )
