"""Papers beside the report: each is linked at its station, and only where it lies there."""

from __future__ import annotations

from pathlib import Path

from planner.output.page.bench_links import BEFORE, SAYS, STATION_OF, at_stations, papers_beside


def test_papers_are_found_and_stand_at_their_stations(tmp_path: Path) -> None:
    """The PDF comes first, a known paper at its station, an unknown one before all, the record at the test."""
    bench = tmp_path / "bench"
    bench.mkdir()
    for name in ("papers.pdf", "drill.html", "notes.html", "record.toml", "ignored.txt"):
        (bench / name).touch()
    papers = papers_beside(tmp_path)
    placed = at_stations(papers, ["finish", "test"])

    assert papers[0].where == "bench/papers.pdf"
    assert [paper.where for paper in placed["finish"]] == ["bench/drill.html"]
    assert [paper.where for paper in placed["test"]] == ["bench/record.toml"]
    assert {paper.where for paper in placed[BEFORE]} == {"bench/papers.pdf", "bench/notes.html"}


def test_every_paper_says_what_it_answers() -> None:
    """A question of somebody who wears it leads to one paper: each has its words, and no two the same."""
    assert set(STATION_OF) | {"job-sheet", "labels"} == set(SAYS)
    assert len(set(SAYS.values())) == len(SAYS)
    assert [name for name, says in SAYS.items() if "hurts" in says] == ["hand-over"]


def test_without_papers_there_are_no_links(tmp_path: Path) -> None:
    """No folder, no links."""
    assert papers_beside(tmp_path) == ()
