"""A doubt knows its options by name."""

from __future__ import annotations

import pytest

from planner.assembly.doubts.doubt import Doubt, Option


def test_an_option_is_found_by_its_name() -> None:
    """The one that is there is returned, any other is a KeyError."""
    one = Option(name="load", text="it carries load", edits=(), share=0.8)
    doubt = Doubt(id="duty", text="What?", options=(one,), default="load", features=())

    assert doubt.option("load") is one
    with pytest.raises(KeyError):
        doubt.option("cover")
