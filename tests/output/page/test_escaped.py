"""Templates escape every value, and miss none in silence."""

from __future__ import annotations

from pathlib import Path

import jinja2
import pytest

from planner.output.page.escaped import escaping


def test_values_are_text_and_missing_ones_are_errors(tmp_path: Path) -> None:
    """A tag in a value stays text; a value that is not given stops the page."""
    (tmp_path / "a.html.j2").write_text("<p>{{ name }}</p>", encoding="utf-8")
    template = escaping(tmp_path).get_template("a.html.j2")

    assert template.render(name="<b>&") == "<p>&lt;b&gt;&amp;</p>"
    with pytest.raises(jinja2.UndefinedError):
        template.render()
