"""Numbers that stay on one line with their units, in texts and in the words of a page."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

NO_BREAK = "\u00a0"
UNITS = r"[mc]m[²³]?(?:/s²?)?|m[²³]?|k?g|N(?:·mm)?|[kM]Pa|s|min|h|kWh|W|°C|°|%|[A-Z]{3}"
UNIT = re.compile(rf"(?<=\d) (?=(?:{UNITS})(?![\w²³·/])|×)|(?<=×) (?=\d)|(?<=±) (?=\d)")
"""The blank between a number and its unit, and those round a multiplication sign (SI Brochure, 9th ed., 5.4.3)."""
WHOLE = re.compile(rf"(?:[±−+-]{NO_BREAK}?)?\d[\d.,]*(?:{NO_BREAK}(?:{UNITS})(?![\w²³·/]))")
"""A number with its unit, once no line may end between them."""
NO_WORDS = re.compile(r"<(script|style|code)\b.*?</\1>|<[^>]*>", re.DOTALL)
"""Scripts, styles, commands to copy, and tags: what is not read as a text."""


def with_fixed_spaces(text: str) -> str:
    """Return a text in which no line ends between a number and its unit.

    >>> with_fixed_spaces("hang 4.1 kg for 60 s").split(" ") == ["hang", f"4.1{NO_BREAK}kg", "for", f"60{NO_BREAK}s"]
    True
    >>> with_fixed_spaces("2 steps").split(" ")
    ['2', 'steps']
    """
    return UNIT.sub(NO_BREAK, text)


def with_whole_units(text: str) -> Markup:
    """Return a text for a page of narrow columns, where any word may be broken but a number with its unit.

    A fixed space alone does not keep them together there: ``overflow-wrap: anywhere`` breaks at any letter.

    >>> with_whole_units("<b2> 2.95 mm") == f'&lt;b2&gt; <span class="u">2.95{NO_BREAK}mm</span>'
    True
    """
    kept = WHOLE.sub(lambda found: f'<span class="u">{found[0]}</span>', str(escape(with_fixed_spaces(text))))
    return Markup(kept)  # noqa: S704  escaped the line before


def with_fixed_spaces_in(html: str) -> str:
    """Return a page in which no text ends a line between a number and its unit; tags, scripts and commands stay.

    >>> with_fixed_spaces_in('<p title="5 mm">5 mm</p>') == f'<p title="5 mm">5{NO_BREAK}mm</p>'
    True
    """
    found, at = list[str](), 0
    for tag in NO_WORDS.finditer(html):
        found += (with_fixed_spaces(html[at : tag.start()]), tag.group())
        at = tag.end()
    return "".join((*found, with_fixed_spaces(html[at:])))
