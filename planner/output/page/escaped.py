"""Templates whose values are escaped: everything that comes from a file stays text."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import jinja2


@cache
def escaping(templates: Path) -> jinja2.Environment:
    """Return the environment of a folder of templates; a name that is not given is an error, never empty.

    There is one for a folder, so that each template is compiled once however many reports a chapter writes; who puts
    filters into it puts the same every time.
    """
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(templates),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
