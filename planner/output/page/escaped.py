"""Templates whose values are escaped: everything that comes from a file stays text."""

from __future__ import annotations

from pathlib import Path

import jinja2


def escaping(templates: Path) -> jinja2.Environment:
    """Return an environment for a folder of templates; a name that is not given is an error, never empty."""
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(templates),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
