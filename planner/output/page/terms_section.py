"""The terms at the end of the report: those that it uses, each explained once."""

from __future__ import annotations

import re
from html import escape

from planner.job import terms_in

NO_WORDS = re.compile(r"<(script|style)\b.*?</\1>|<[^>]*>", re.DOTALL)
"""Scripts, styles and tags: what no reader sees."""
END = "</main>"


def with_terms(html: str) -> str:
    """Return the page with the terms that it uses explained before its end; they start closed."""
    rows = "".join(
        f"<div><dt>{escape(term.word)}</dt><dd>{escape(term.means)}</dd></div>"
        for term in terms_in(NO_WORDS.sub(" ", html))
    )
    section = f'<details class="terms" id="terms"><summary>Terms used on this page</summary><dl>{rows}</dl></details>'
    return html.replace(END, f"{section}\n{END}", 1)
