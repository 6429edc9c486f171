"""The README's picture of the report is of today's report; taken anew by ``FITWRIGHT_PICTURE=1 pytest`` on this file.

Pixels differ from one machine's fonts to the next, so the words of the first screen are kept beside the picture, and
these have to be what the page says.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

PICTURE = Path(__file__).parents[3] / "sample_parts" / "report.png"
WORDS = Path(__file__).with_name("first_screen.txt")
SHOWN = ("header.head", ".answer", ".figures", "#device button, #device label")
"""What the picture shows of the page, by its selectors."""


def test_the_picture_shows_what_the_page_says(opened: Any) -> None:
    """Title, verdict, what decides, figures and controls of the device: word for word."""
    tab = opened("heron", 1280, 800).tab
    texts = [one.inner_text() for where in SHOWN for one in tab.query_selector_all(where)]
    words = "\n".join(line.strip() for text in texts for line in text.splitlines() if line.strip()) + "\n"
    if os.environ.get("FITWRIGHT_PICTURE"):
        PICTURE.write_bytes(tab.screenshot())
        WORDS.write_text(words, encoding="utf-8")

    assert words.replace("\u00a0", " ") == WORDS.read_text(encoding="utf-8").replace("\u00a0", " "), (
        f"take the picture anew: FITWRIGHT_PICTURE=1 python -m pytest {Path(__file__).relative_to(PICTURE.parents[1])}"
    )
