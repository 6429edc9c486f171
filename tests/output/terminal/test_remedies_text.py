"""Remedies in a terminal: number, price, and why nearer ways fail."""

from __future__ import annotations

from rich.console import Console

from planner.output import show_remedies
from planner.plan import proved_remedies
from planner.remedy import Remedies
from tests.conftest import MakeJob
from tests.remedy.devices import pinned


def test_each_remedy_has_its_number_its_price_and_what_failed_before_it(make_job: MakeJob) -> None:
    """A thinner pin where drilling would leave too little; nothing is printed where nothing was found."""
    ready = pinned(make_job, 5.0, 4.6, y_mm=(3.75,))
    console = Console(width=80, record=True, quiet=False)
    with console.capture() as caught:
        show_remedies(console, Remedies(), ready.job)
    assert not caught.get()

    with console.capture() as caught:
        show_remedies(console, proved_remedies(ready), ready.job)
    text = " ".join(caught.get().split())
    assert "1 take 4 mm dowel-pin for pin instead of 5 mm (0.30 EUR, then go)" in text
    assert "1.35 mm needed" in text
    assert "--do N" in text
