"""The papers that lie beside the report: found in ``bench/``, and linked at the station that needs them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

BENCH = "bench"
STATION_OF = {
    "plate-cards": "print",
    "drill": "finish",
    "cut": "finish",
    "finishing": "finish",
    "padding": "finish",
    "bags": "assemble",
    "assembly": "assemble",
    "test": "test",
    "record": "test",
    "hand-over": "hand-over",
}
"""Papers by the name of their file; one that is not listed here is linked above the first station."""
SAYS = {
    "job-sheet": "the plan on one page: what decides, which plate first, left or right, cautions",
    "plate-cards": "each plate: how to load the printer, the first layer, which piece is which, what to do if it fails",
    "labels": "what to stick on parts and bags",
    "finishing": "what to do once a plate is printed: cool, take support off, measure, round the edges",
    "drill": "which bore to drill or ream, how wide and how deep, drawn at true size where it fits the page",
    "cut": "how long to cut cord, elastic and straps, and how much to buy",
    "padding": "what to cut the padding to, at true size",
    "bags": "what to put into each bag: parts, screws, nuts, washers, spares; their lengths at other sizes",
    "assembly": "every step with its picture; how to lead cords; where a screwdriver reaches",
    "test": "what to test before somebody gets it, and what passes: range, pull, grip, drop, load",
    "record": "who did what, lots of material, exceptions and who answers for them",
    "hand-over": "for who wears it: on and off, the first days, washing, heat, what if it hurts, whom to ask",
}
"""What each paper answers, in a maker's words."""
BEFORE = ""
"""Where papers that belong to no single station are linked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A paper: where it lies, relative to the report, and what it is called."""

    where: str
    title: str
    station: str = BEFORE
    says: str = ""


def papers_beside(folder: Path) -> tuple[Paper, ...]:
    """Return the papers that lie in ``folder/bench``: all in one PDF first, then each, then the records."""
    bench = folder / BENCH
    found = [
        *(
            Paper(where=f"{BENCH}/{path.name}", title="All papers, to print")
            for path in sorted(bench.glob("papers.pdf"))
        ),
        *(
            Paper(
                where=f"{BENCH}/{path.name}",
                title=_title(path.stem),
                station=STATION_OF.get(path.stem, BEFORE),
                says=SAYS.get(path.stem, ""),
            )
            for path in sorted(bench.glob("*.html"))
        ),
        *(
            Paper(where=f"{BENCH}/{path.name}", title="Record to fill in", station="test")
            for path in sorted(bench.glob("record*.toml"))
        ),
    ]
    return tuple(found)


def at_stations(papers: Sequence[Paper], stations: Sequence[str]) -> dict[str, list[Paper]]:
    """Return the papers of each station, and under ``BEFORE`` those of none."""
    return {station: [paper for paper in papers if paper.station == station] for station in (BEFORE, *stations)}


def _title(stem: str) -> str:
    """Return what a paper is called, from the name of its file.

    >>> _title("plate-cards")
    'Plate cards'
    """
    return stem.replace("-", " ").capitalize()
